//! What is seen. Nothing here decides anything clinical: screens ask [`care`](crate::care) and show
//! the answer in the words of `words`.

mod alarm;
mod app;
mod calling;
mod desk;
mod habits;
mod language;
mod lock;
mod page;
mod pages;
pub mod parts;
mod photo;
mod plain;
mod printed;
mod rehearsal;
mod skin;
mod steps;
mod tap;
mod theme;
mod title;
mod words;

/// Mounts the app into the element that `index.html` keeps for it, in the language of this phone.
pub fn start() {
    crate::phone::panic::watch(plain::told);
    language::begin(app::mount);
}
