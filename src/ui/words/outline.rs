//! The territory drawn round: on what, and how its grid lies.

use super::numbers;
use super::sketching::{hundredths, tenths};
use crate::care::territory::Ground;
use crate::plane::{Lattice, Scale, Unscaled};
use crate::protocol::card::LIMITS;
use crate::protocol::face::View;
use crate::ui::language::{spoken, within};

/// How the points of a grid lie.
pub fn lattice(lattice: Lattice) -> &'static str {
    spoken(match lattice {
        Lattice::Square => "Square",
        Lattice::Hexagonal => "Hexagonal",
    })
}

/// A drawing of the face. Left and right are the patient's.
pub fn view(view: View) -> &'static str {
    spoken(match view {
        View::Front => "Front",
        View::Right => "Right side",
        View::Left => "Left side",
        View::Lips => "Lips",
    })
}

/// What an outline was drawn on, and how its size is known.
pub fn ground(ground: &Ground) -> String {
    match ground {
        Ground::Drawing { view: which, measured: Some(length) } => tr!(
            "Drawn on the face, {view}, fitted to {length} measured",
            view = within(view(*which)),
            length = numbers::length_named(*length)
        ),
        Ground::Drawing { view: which, measured: None } => {
            tr!("Drawn on the standard face, {view}", view = within(view(*which)))
        }
        Ground::Photo { scale: Scale::Card(_), .. } => {
            tr!("Traced on a photo, measured by a card")
        }
        Ground::Photo { scale: Scale::Known { length, .. }, .. } => tr!(
            "Traced on a photo, measured by a length of {length}",
            length = numbers::length_named(*length)
        ),
    }
}

/// Why a photo's scale cannot be right.
pub fn unscaled(why: Unscaled) -> String {
    match why {
        Unscaled::Outside => tr!("A mark lies outside of the photo."),
        Unscaled::Crossed => {
            tr!("Two sides of the card cross. The marks go round it, one after the other.")
        }
        Unscaled::NotConvex => {
            tr!("These four corners make no card: three are in a line, or one lies inside.")
        }
        Unscaled::TooSmall { pixels } => tr!(
            "Too small in the photo to measure by: {pixels} pixels, at least {least} are needed. \
             Go nearer.",
            pixels,
            least = LIMITS.least_side
        ),
        Unscaled::Tilted { tilt } => tr!(
            "The card is tilted by {tilt} °, more than {most} °. Hold the phone square on.",
            tilt = tenths(tilt),
            most = tenths(LIMITS.most_tilt)
        ),
        Unscaled::TwoWays => {
            tr!("Seen like this the card may lie either way. Hold the phone square on.")
        }
        Unscaled::Misfit(misfit) => tr!(
            "No flat card looks like that: the corners are off by {off} mm, at most {most} mm. \
             Move them, or lay the card flat.",
            off = hundredths(misfit.skin),
            most = hundredths(LIMITS.most_misfit)
        ),
        Unscaled::NoLength => tr!("Type how long it is."),
    }
}
