//! What the screen looks like.

use crate::store::habits::Theme;

pub const OPEN: &str = "Sunlight, light or dark";
pub const HARD_TO_SEE: &str = "Hard to see? Sunlight or dark";
pub const TITLE: &str = "How the screen looks";

pub const fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::Sunlight => "Sunlight",
        Theme::Phone => "As the phone",
        Theme::Light => "Light",
        Theme::Dark => "Dark",
    }
}

pub const fn hint(theme: Theme) -> &'static str {
    match theme {
        Theme::Sunlight => "Black on white, heavy lines and numbers: for a screen in the sun",
        Theme::Phone => "Light or dark as the phone is set",
        Theme::Light => "Dark words on a light ground",
        Theme::Dark => "Light words on a dark ground: for a dim room",
    }
}
