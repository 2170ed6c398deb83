//! Shelves in memory that fail on demand, and a way to stop a future at any step.

use crate::store::{Key, Refusal, Shelf, Slip};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::future::poll_fn;
use std::pin::pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

/// How the next writing goes.
#[derive(Clone, Debug, Default)]
pub enum Fault {
    #[default]
    None,
    /// Nothing is written.
    Refuse(Refusal),
    /// One line is written, then it stops. Only a shelf without transactions does so.
    Half(Refusal),
    /// All is written, but the answer gets lost.
    KeptButLost,
}

#[derive(Debug, Default)]
struct Inside {
    lines: BTreeMap<Key, String>,
    disk: BTreeMap<Key, String>,
    next: Fault,
    unreadable: bool,
}

/// A shelf in memory.
#[derive(Clone, Debug)]
pub struct Fake {
    inside: Rc<RefCell<Inside>>,
    sure: bool,
}

impl Fake {
    /// Writes at once, keeps only what was flushed before a kill.
    pub fn quick() -> Self {
        Self { inside: Rc::default(), sure: false }
    }

    /// Writes after a while, all or nothing, and keeps what it wrote.
    pub fn sure() -> Self {
        Self { inside: Rc::default(), sure: true }
    }

    /// Sets how each writing goes from now on.
    pub fn next(&self, fault: Fault) {
        self.inside.borrow_mut().next = fault;
    }

    pub fn unreadable(&self, so: bool) {
        self.inside.borrow_mut().unreadable = so;
    }

    pub fn lines(&self) -> BTreeMap<Key, String> {
        self.inside.borrow().lines.clone()
    }

    pub fn replace(&self, key: &Key, line: &str) {
        self.inside.borrow_mut().lines.insert(key.clone(), line.to_owned());
    }

    /// The browser puts on the disk what it has.
    pub fn flush(&self) {
        let mut inside = self.inside.borrow_mut();
        inside.disk = inside.lines.clone();
    }

    /// The browser is killed.
    pub fn kill(&self) {
        let mut inside = self.inside.borrow_mut();
        inside.lines = inside.disk.clone();
    }

    fn write(&self, slips: Vec<Slip>) -> Result<(), Refusal> {
        let mut inside = self.inside.borrow_mut();
        let (count, answer) = match std::mem::take(&mut inside.next) {
            Fault::None => (slips.len(), Ok(())),
            Fault::Half(why) if !self.sure => (1, Err(why)),
            Fault::Refuse(why) | Fault::Half(why) => (0, Err(why)),
            Fault::KeptButLost => (slips.len(), Err(Refusal::Silent)),
        };
        inside.lines.extend(slips.into_iter().take(count).map(|slip| (slip.key, slip.line)));
        answer
    }
}

impl Shelf for Fake {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let inner = self.clone();
        let early = (!self.sure).then(|| self.write(slips.clone()));
        async move {
            if let Some(answer) = early {
                return answer;
            }
            pause(2).await;
            let answer = inner.write(slips);
            pause(1).await;
            answer
        }
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        let inner = self.clone();
        async move {
            pause(usize::from(inner.sure)).await;
            if inner.inside.borrow().unreadable {
                return Err(Refusal::Denied);
            }
            let slips = inner.lines().into_iter().map(|(key, line)| Slip { key, line });
            Ok(slips.collect())
        }
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let inner = self.clone();
        async move {
            pause(usize::from(inner.sure)).await;
            inner.inside.borrow_mut().lines.retain(|key, _| !keys.contains(key));
            Ok(())
        }
    }
}

async fn pause(steps: usize) {
    let mut left = steps;
    poll_fn(|_| {
        if left == 0 {
            return Poll::Ready(());
        }
        left -= 1;
        Poll::Pending
    })
    .await;
}

/// Runs a future to its end, or so many steps far and then drops it.
pub fn run_for<T>(work: impl Future<Output = T>, steps: Option<usize>) -> Option<T> {
    let mut work = pin!(work);
    let mut context = Context::from_waker(Waker::noop());
    for _ in 0..steps.unwrap_or(1_000) {
        if let Poll::Ready(answer) = work.as_mut().poll(&mut context) {
            return Some(answer);
        }
    }
    None
}

/// Runs a future to its end.
pub fn finish<T>(work: impl Future<Output = T>) -> T {
    run_for(work, None).expect("it ends within a thousand steps")
}
