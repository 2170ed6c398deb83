//! Drawing round the skin: on a face, on a photo, and how its size is found.

use super::{numbers, outline, situation};
use crate::measure::{Area, Length};
use crate::phone::picture::Unreadable;
use crate::plane::Misfit;
use crate::protocol::face::{Landmark, View};
use crate::protocol::zone::Zone;
use crate::store::Refusal;
use crate::ui::language::{decimal_sign, spoken};
use crate::ui::pages::outline::{By, Missing, Mode, On, Remark, Wrong};

words! {
    pub title = "Draw the skin";
    pub round_it = "Draw round it";
    pub ground = "Draw on";
    pub photo = "Photo";
    pub mode_label = "One finger";
    pub undo = "Undo";
    pub close_round = "Close it";
    pub last_outline = "Last outline";
    pub last_shown = "Go round it now. Broken line: as it was.";
    pub anew = "Start anew";
    pub whole = "All" as "of the picture";
    pub closer = "Enlarge";
    pub further = "Make smaller";
    pub use_label = "Use it";
    pub zones = "Zones by name";
    pub mm = "mm";

    pub fit_hint = "Leave it empty for the standard face. A drawing is flat: what is seen aslant measures less \
         on it than on the face.";
    pub why_standard = "What the standard face is";

    pub new_photo = "Photo of the skin";
    pub take = "Take a photo";
    pub choose = "Choose a photo";
    pub last = "The last photo";
    pub another = "Another photo";
    pub reading = "Reading the photo";
    pub lay_card = "Lay any card of bank-card size flat beside the skin, in one plane with \
         it. Hold the phone square on, and near.";
    pub stays_here = "The photo stays on this phone, without the place and time of its file.";
    pub consent = "It belongs to the patient’s record: consent and storage follow your local rules.";
    pub photo_gone = "The photo is not on this phone. What was drawn on it stands; for more, take another.";

    pub by = "Measured by";
    pub by_card = "A card";
    pub by_length = "A length";
    pub how_long = "From mark to mark";
    pub tilt = "Tilt";
    pub degrees = "°";
    pub off_label = "Corners off by";
    pub trace = "Draw on it";
    pub size_again = "Measure again";
    pub limits = "What a photo cannot measure";
}

pub fn limits_words() -> [&'static str; 3] {
    [
        "Skin curves away; a photo is measured as if it were flat. On the side of a cheek or a \
         nose it shows less than there is.",
        "What lies above or below the plane of the card is measured wrong. Keep to the skin beside \
         it.",
        "Held aslant, all of this grows. Hold the phone square on.",
    ]
    .map(spoken)
}

/// What is marked in a photo.
pub fn marking(by: By) -> &'static str {
    spoken(match by {
        By::Card => "Mark the card",
        By::Length => "Mark a length",
    })
}

/// How it is marked.
pub fn how_to_mark(by: By) -> &'static str {
    spoken(match by {
        By::Card => {
            "Drag each mark to a corner of the card, to where its straight edges would meet; or tap \
             the mark, then the corner. Enlarge to place it well."
        }
        By::Length => {
            "Drag the marks to both ends of something you know, a ruler or the mouth; or tap a mark, \
             then its end. A tilt does not show by it, so hold the phone square on."
        }
    })
}

/// What is looked at, on a button of one word.
pub fn on(on: On) -> &'static str {
    match on {
        On::View(View::Front) => spoken("Front"),
        On::View(View::Right) => spoken("Right"),
        On::View(View::Left) => spoken("Left"),
        On::View(View::Lips) => spoken("Lips"),
        On::Photo | On::NewPhoto => photo(),
    }
}

/// What one finger does.
pub fn mode(mode: Mode) -> &'static str {
    spoken(match mode {
        Mode::Draw => "Draw",
        Mode::LeaveOut => "Leave out",
        Mode::Shape => "Shape",
    })
}

/// How to do it.
pub fn hint(mode: Mode, on: On) -> &'static str {
    spoken(match (mode, on) {
        (Mode::Draw, On::View(_)) => "Go round the pale skin, tap its corners, or tap a zone.",
        (Mode::Draw, _) => "Go round the pale skin, or tap its corners.",
        (Mode::LeaveOut, _) => "Go round what does not belong to it, or tap its corners.",
        (Mode::Shape, _) => "Pull an edge, or move the picture.",
    })
}

/// Corners were tapped, so many.
pub fn corners(count: usize) -> String {
    tr!(
        "{count} corner. Tap the next; at the first corner, close it."
            | "{count} corners. Tap the next; at the first corner, close it." % count,
        count = numbers::whole(count)
    )
}

/// What is to be said of the last thing done.
pub fn remark(remark: Remark) -> &'static str {
    spoken(match remark {
        Remark::Line => "That goes round nothing. Go all the way round.",
        Remark::OutOfReach => "That is outside of what this photo can measure. Not drawn.",
    })
}

/// A stroke crossed itself.
pub fn crossed(times: usize) -> String {
    if times == 1 {
        tr!("The line crosses itself at one place, marked. All that it goes round counts.")
    } else {
        tr!("The line crosses itself at several places, marked. All that it goes round counts.")
    }
}

/// How many patches.
pub fn patches(count: usize) -> String {
    tr!("{count} patch" | "{count} patches" % count, count = numbers::whole(count))
}

/// The size in one line.
pub fn drawn(area: Area, count: usize) -> String {
    format!("{}, {}", numbers::area_named(area), patches(count))
}

/// The canvas in words.
pub fn canvas(on: On, area: Option<Area>) -> String {
    let ground = match on {
        On::View(view) => tr!("Drawing of a face, {view}", view = outline::view(view)),
        On::Photo | On::NewPhoto => new_photo().to_owned(),
    };
    match area {
        Some(area) => tr!("{ground}, {area} drawn round", ground, area = numbers::area_named(area)),
        None => tr!("{ground}, nothing drawn round yet", ground),
    }
}

/// The button that takes the outline.
pub fn use_it(area: Area) -> String {
    tr!("Use {area}", area = numbers::area_named(area))
}

/// Why the outline cannot be used.
pub fn missing(missing: Missing) -> String {
    match missing {
        Missing::Corners => tr!("Close the round that was tapped, or undo it."),
        Missing::Outline(wrong) => self::wrong(wrong).to_owned(),
        Missing::Territory(refused) => super::strength::refused(refused),
        Missing::Length(words) => tr!("This patient’s length: {words}", words),
        Missing::Sure(_) => super::strength::confirm_size().to_owned(),
    }
}

fn wrong(wrong: Wrong) -> &'static str {
    spoken(match wrong {
        Wrong::Nothing => "Nothing is drawn yet.",
        Wrong::Line => "What is drawn goes round nothing.",
        Wrong::AllOut => "All of it is left out. Undo, or draw again.",
        Wrong::TooMuch => "Too many lines to be a drawing of skin. Start anew.",
        Wrong::OutOfReach => "Some of it is outside of what this photo can measure.",
    })
}

/// A zone on a drawing, with its side where both are shown.
pub fn zone(zone: Zone, side: Option<Side>) -> String {
    let name = situation::zone(zone);
    match side {
        None => name.to_owned(),
        Some(Side::Right) => tr!("{name}, right", name),
        Some(Side::Left) => tr!("{name}, left", name),
    }
}

/// A side of the patient.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The patient's right.
    Right,
    /// The patient's left.
    Left,
}

fn landmark(landmark: Landmark) -> &'static str {
    spoken(match landmark {
        Landmark::MouthWidth => "mouth",
        Landmark::NasalHeight => "nose",
    })
}

/// How large the face is that is drawn on.
pub fn fitted(view: View, measured: Option<Length>) -> String {
    let measure = view.measure();
    let (part, length) = (landmark(measure.which), measured.unwrap_or(measure.length));
    let length = numbers::length_named(length);
    match measured {
        None => tr!("Standard face, {part} {length}", part, length),
        Some(_) => tr!("Fitted to this patient, {part} {length}", part, length),
    }
}

/// The length that the drawing is fitted to.
pub fn fit(which: Landmark) -> &'static str {
    spoken(match which {
        Landmark::MouthWidth => "This patient’s mouth, corner to corner",
        Landmark::NasalHeight => "This patient’s nose, root to base",
    })
}

/// Why a file did not become a photo.
pub fn unreadable(why: Unreadable) -> &'static str {
    spoken(match why {
        Unreadable::NotAPhoto => "That is not a photo. Take one, or choose another.",
        Unreadable::TooLarge => "That file is too large. Take the photo with this phone’s camera.",
        Unreadable::NotDecoded => {
            "This phone cannot read that photo: damaged, of an unknown form, or too large for its \
             memory. Take another, or draw on the face."
        }
        Unreadable::NotDrawn => {
            "This browser does not let the app read photos: no memory, or its settings. Draw on \
             the face instead."
        }
        Unreadable::Metadata => {
            "Place and time could not be taken out of that photo, so it is not used. Take another."
        }
    })
}

/// The photo could not be kept.
pub fn not_kept(why: &Refusal) -> String {
    tr!(
        "The photo is not kept: {reason}. Draw on it now: the outline is kept, and the case is \
         unharmed.",
        reason = super::app::refusal(why)
    )
}

/// Marks that nobody has moved.
pub fn to_place(by: By, count: usize) -> String {
    match by {
        By::Card => tr!("Put each corner into place: {count} to go.", count),
        By::Length => tr!("Put each end into place: {count} to go.", count),
    }
}

/// A mark that is dragged, for a screen reader.
pub fn mark(by: By, place: usize) -> String {
    let number = place + 1;
    match by {
        By::Card => tr!("Corner {number}, moved by the arrow keys", number),
        By::Length => tr!("End {number}, moved by the arrow keys", number),
    }
}

/// A photo with its marks, in words.
pub fn photo_with(by: By) -> &'static str {
    spoken(match by {
        By::Card => "Photo with four marks for the corners of the card",
        By::Length => "Photo with two marks for the ends of the length",
    })
}

/// How far the corners are off.
pub fn off(misfit: Misfit) -> String {
    tr!("{pixels} pixels", pixels = tenths(misfit.rms))
}

/// A part of the outline lies too far from the card.
pub fn too_far(length: Length) -> String {
    tr!(
        "Part of it lies {length} from the card, where the photo measures badly. Take another with \
         the card nearer.",
        length = numbers::length_named(length)
    )
}

/// Tenths as a number.
pub fn tenths(tenths: u32) -> String {
    format!("{}{}{}", tenths / 10, decimal_sign(), tenths % 10)
}

/// Hundredths as a number.
pub fn hundredths(hundredths: u32) -> String {
    format!("{}{}{:02}", hundredths / 100, decimal_sign(), hundredths % 100)
}
