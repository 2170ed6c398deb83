//! Mounts the app, nothing else.

fn main() {
    freshet::ui::start();
}
