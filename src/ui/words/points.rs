//! The points of a round: picked, added, and from which syringe.

use crate::care::rounds::SyringeChange;
use crate::ui::language::within;

words! {
    pub add = "Add a point";
    pub place_it = "Tap the skin where the point is to go.";
    pub not_now = "No point";
    pub undo_add = "Undo the added point";
    pick = "Tap a point to take it next";
    pub photo_gone = "The photo is not on this phone any more. The outline stands.";
    pub earlier = "Broken lines: the outline before earlier rounds, by number. From another picture they are laid centre on centre.";
    pub redraw = "Draw the skin anew";
}

/// Where the syringes change.
pub fn changes(changes: &[SyringeChange]) -> Option<String> {
    let mut words = changes.iter().map(|change| {
        tr!("Syringe {syringe} from point {point}", syringe = change.syringe, point = change.point)
    });
    let first = words.next()?;
    Some(words.fold(first, |text, next| format!("{text}, {}", within(&next))))
}

/// Where the syringes change, and that points may be taken in another order.
pub fn under_the_drawing(changing: &[SyringeChange], pick: bool) -> String {
    let pick = pick.then(|| self::pick().to_owned());
    changes(changing).into_iter().chain(pick).collect::<Vec<_>>().join(" · ")
}

/// The curve of the area in words.
pub fn shrinking(first: &str, last: &str, times: usize) -> String {
    tr!("Skin without blood over {times} drawings: from {first} to {last}", times, first, last)
}
