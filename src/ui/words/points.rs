//! The points of a round: picked, added, and from which syringe.

use crate::care::rounds::SyringeChange;

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
    let words =
        |change: &SyringeChange| format!("syringe {} from point {}", change.syringe, change.point);
    let all: Vec<String> = changes.iter().map(words).collect();
    (!all.is_empty()).then(|| {
        let text = all.join(", ");
        let (first, rest) = text.split_at(1);
        first.to_ascii_uppercase() + rest
    })
}

/// Where the syringes change, and that points may be taken in another order.
pub fn under_the_drawing(changing: &[SyringeChange], pick: bool) -> String {
    let pick = pick.then(|| self::pick().to_owned());
    changes(changing).into_iter().chain(pick).collect::<Vec<_>>().join(" · ")
}

/// The curve of the area in words.
pub fn shrinking(first: &str, last: &str, times: usize) -> String {
    format!("Skin without blood over {times} drawings: from {first} to {last}")
}
