//! What was said of the patient, kept while another page is shown: the next dose must not rise
//! because somebody went to read the sheet out. By case, so that another patient never gets it.

use super::Sheet;
use super::whom::{Typed, Whom};
use crate::case::CaseId;
use leptos::prelude::*;
use std::cell::RefCell;
use std::collections::BTreeMap;

/// For whom, and as it was typed.
type Kept = (Whom, Typed);

thread_local! {
    static KEPT: RefCell<BTreeMap<CaseId, Kept>> = const { RefCell::new(BTreeMap::new()) };
}

/// Keeps what was said for a case; nothing where nothing was.
pub fn keep(id: CaseId, whom: Whom, typed: Typed) {
    KEPT.with_borrow_mut(|all| {
        if whom.said() {
            all.insert(id, (whom, typed));
        } else {
            all.remove(&id);
        }
    });
}

/// What was said for a case, or what the case knows. The case tells whose table goes, and an age
/// where none was said.
fn take_up(id: Option<CaseId>, known: Whom) -> Kept {
    let kept = id.and_then(|id| KEPT.with_borrow(|all| all.get(&id).cloned()));
    let Some((whom, mut typed)) = kept else { return (known, Typed::of(known)) };
    let mut whom = whom.under(known.region);
    // Not where something stands that cannot be read: that is put right first.
    if whom.age.is_none() && typed.age.is_empty() {
        whom.age = known.age;
        typed = Typed { weight: typed.weight, ..Typed::of(known) };
    }
    (whom, typed)
}

impl Sheet {
    /// Goes on with what was said of this case's patient.
    pub(super) fn take_up(self) {
        let known = untrack(|| Whom::of(self));
        let (whom, typed) = take_up(self.case.get_untracked(), known);
        self.whom.set(whom);
        self.typed.set(typed);
    }

    /// Something is said of the patient.
    pub(super) fn say(self, change: impl FnOnce(&mut Whom)) {
        self.whom.update(change);
        if let Some(id) = self.case.get_untracked() {
            keep(id, self.whom.get_untracked(), self.typed.get_untracked());
        }
    }

    /// Something is typed of the patient.
    pub(super) fn retype(self, change: impl FnOnce(&mut Typed)) {
        self.typed.update(change);
        let typed = self.typed.get_untracked();
        self.say(|whom| whom.read(&typed));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::care::anaphylaxis::Build;
    use crate::protocol::Region;

    fn typed(age: &str, weight: &str) -> Typed {
        Typed { age: age.into(), months: false, weight: weight.into() }
    }

    #[test]
    fn what_was_said_comes_back_with_its_case_alone() {
        let (one, other) = (CaseId::from_random(1), CaseId::from_random(2));
        let fourteen = typed("14", "");
        let mut small = Whom { build: Some(Build::Small), ..Whom::default() };
        small.read(&fourteen);
        keep(one, small, fourteen.clone());
        let known = Whom::default();
        assert_eq!(take_up(Some(one), known), (small, fourteen));
        let fresh = (known, Typed::of(known));
        assert_eq!(take_up(Some(other), known), fresh);
        assert_eq!(take_up(None, known), fresh);
        // Taken back, it is gone.
        keep(one, known, Typed::default());
        assert_eq!(take_up(Some(one), known), fresh);
    }

    #[test]
    fn the_case_tells_whose_table_goes_and_an_age_not_said() {
        let id = CaseId::from_random(3);
        let mut whom = Whom::default().under(Region::Australia);
        whom.read(&typed("", "20"));
        keep(id, whom, typed("", "20"));
        let known = Whom { age: Some((6, true)), ..Whom::default() }.under(Region::Australia);
        let (again, text) = take_up(Some(id), known);
        assert_eq!((again.age, again.weight()), (known.age, whom.weight()));
        assert_eq!(text, typed("6", "20"));
        assert_eq!(take_up(Some(id), known.under(Region::Uk)).0.region, Region::Uk);
    }

    #[test]
    fn what_cannot_be_read_is_there_again_to_be_put_right() {
        let id = CaseId::from_random(4);
        let mut whom = Whom::default();
        whom.read(&typed("1O", ""));
        keep(id, whom, typed("1O", ""));
        let known = Whom { age: Some((40, true)), ..Whom::default() };
        assert_eq!(take_up(Some(id), known), (whom, typed("1O", "")));
        assert_eq!(whom.dose(), None);
    }
}
