//! The app in real browsers, driven as a user would. Each test is run once for each engine.

mod access;
mod after;
mod backup;
mod fit;
mod followup;
mod german;
mod handover;
mod hours;
mod keyboard;
mod kill;
mod kit;
mod lock;
mod look;
mod offline;
mod outline;
mod paper;
mod papers;
mod photo;
mod photos;
mod planned;
mod press;
mod reaction;
mod records;
mod rehearsal;
mod ringing;
mod stopped;
mod storage;
mod tabs;
mod tapped;
mod theme;
mod unlosable;
mod update;
mod urgent;
mod values;
mod webkit;

use freshet_browser_tests::engine::Engine;
use freshet_browser_tests::phone::{AtEach, Phone};
use std::sync::{Condvar, Mutex};

/// Makes a test on one engine of each function that takes a phone, not switched on yet.
macro_rules! on_engine {
    ($module:ident $engine:ident: $($(#[$note:meta])* $name:ident)*) => {
        mod $module {
            $($(#[$note])* #[test] fn $name() {
                crate::run(freshet_browser_tests::engine::Engine::$engine, stringify!($name), super::$name);
            })*
        }
    };
}
pub(crate) use on_engine;

/// The same on each engine that can do all of it.
macro_rules! on_both_engines {
    ($($all:tt)*) => {
        crate::on_engine! { chromium Chromium: $($all)* }
        crate::on_engine! { firefox Firefox: $($all)* }
    };
}
pub(crate) use on_both_engines;

/// Browsers that run now. More than two on two cores make each other late.
static RUNNING: Mutex<usize> = Mutex::new(0);
static FREE: Condvar = Condvar::new();
const MOST: usize = 2;

struct Turn;

impl Turn {
    fn take() -> Self {
        let running = RUNNING.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let mut running = FREE
            .wait_while(running, |running| *running >= MOST)
            .unwrap_or_else(std::sync::PoisonError::into_inner);
        *running += 1;
        Self
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        *RUNNING.lock().unwrap_or_else(std::sync::PoisonError::into_inner) -= 1;
        FREE.notify_one();
    }
}

/// Goes a way through the app and does the same at each screen of it; nothing may be found.
async fn looked_at(mut phone: Phone, at_each: AtEach, way: impl AsyncFnOnce(&mut Phone)) -> Phone {
    phone.at_each = at_each;
    phone.open().await;
    way(&mut phone).await;
    phone.nothing_found().await;
    phone
}

fn run<F: Future<Output = Phone>>(engine: Engine, name: &str, test: impl FnOnce(Phone) -> F) {
    if engine.left_out() {
        eprintln!("{name}: {} is left out by FRESHET_ENGINES", engine.name());
        return;
    }
    let _turn = Turn::take();
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .expect("a runtime");
    let begun = std::time::Instant::now();
    runtime.block_on(async {
        let phone = test(Phone::off(engine, name)).await;
        phone.put_away().await;
    });
    eprintln!("{name} on {}: {:.1} s", engine.name(), begun.elapsed().as_secs_f64());
}
