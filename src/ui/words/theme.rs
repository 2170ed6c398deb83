//! What the screen looks like.

use crate::store::habits::Theme;
use crate::ui::language::spoken;

words! {
    pub open = "Sunlight, light or dark";
    pub hard_to_see = "Hard to see? Sunlight or dark";
    pub title = "How the screen looks";
}

pub fn theme(theme: Theme) -> &'static str {
    spoken(match theme {
        Theme::Sunlight => "Sunlight",
        Theme::Phone => "As the phone",
        Theme::Light => "Light",
        Theme::Dark => "Dark",
    })
}

pub fn hint(theme: Theme) -> &'static str {
    spoken(match theme {
        Theme::Sunlight => "Black on white, heavy lines and numbers: for a screen in the sun",
        Theme::Phone => "Light or dark as the phone is set",
        Theme::Light => "Dark words on a light ground",
        Theme::Dark => "Light words on a dark ground: for a dim room",
    })
}
