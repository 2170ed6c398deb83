//! The territory drawn round: on what, and how its grid lies.

use super::numbers;
use super::sketching::{hundredths, tenths};
use crate::care::territory::Ground;
use crate::plane::{Lattice, Scale, Unscaled};
use crate::protocol::card::LIMITS;
use crate::protocol::face::View;

/// How the points of a grid lie.
pub fn lattice(lattice: Lattice) -> &'static str {
    match lattice {
        Lattice::Square => "Square",
        Lattice::Hexagonal => "Hexagonal",
    }
}

/// A drawing of the face. Left and right are the patient's.
pub fn view(view: View) -> &'static str {
    match view {
        View::Front => "Front",
        View::Right => "Right side",
        View::Left => "Left side",
        View::Lips => "Lips",
    }
}

/// What an outline was drawn on, and how its size is known.
pub fn ground(ground: &Ground) -> String {
    match ground {
        Ground::Drawing { view: which, measured: Some(length) } => format!(
            "Drawn on the face, {}, fitted to {} measured",
            view(*which).to_ascii_lowercase(),
            numbers::length_named(*length)
        ),
        Ground::Drawing { view: which, measured: None } => {
            format!("Drawn on the standard face, {}", view(*which).to_ascii_lowercase())
        }
        Ground::Photo { scale: Scale::Card(_), .. } => {
            "Traced on a photo, measured by a card".to_owned()
        }
        Ground::Photo { scale: Scale::Known { length, .. }, .. } => {
            format!("Traced on a photo, measured by a length of {}", numbers::length_named(*length))
        }
    }
}

/// Why a photo's scale cannot be right.
pub fn unscaled(why: Unscaled) -> String {
    match why {
        Unscaled::Outside => "A mark lies outside of the photo.".to_owned(),
        Unscaled::Crossed => {
            "Two sides of the card cross. The marks go round it, one after the other.".to_owned()
        }
        Unscaled::NotConvex => {
            "These four corners make no card: three are in a line, or one lies inside.".to_owned()
        }
        Unscaled::TooSmall { pixels } => format!(
            "Too small in the photo to measure by: {pixels} pixels, at least {} are needed. Go \
             nearer.",
            LIMITS.least_side
        ),
        Unscaled::Tilted { tilt } => format!(
            "The card is tilted by {} °, more than {} °. Hold the phone square on.",
            tenths(tilt),
            tenths(LIMITS.most_tilt)
        ),
        Unscaled::TwoWays => {
            "Seen like this the card may lie either way. Hold the phone square on.".to_owned()
        }
        Unscaled::Misfit(misfit) => format!(
            "No flat card looks like that: the corners are off by {} mm, at most {} mm. Move them, \
             or lay the card flat.",
            hundredths(misfit.skin),
            hundredths(LIMITS.most_misfit)
        ),
        Unscaled::NoLength => "Type how long it is.".to_owned(),
    }
}
