//! Who may have the enzyme, who is tested first, and who is not treated here.

use crate::protocol::source::{self as src, Source};
use serde::{Deserialize, Serialize};

/// An answer that may be wanting.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Answer {
    /// No.
    No,
    /// Yes.
    Yes,
    /// Not known, or not asked.
    #[default]
    Unknown,
}

/// Where the enzyme comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Species {
    /// Cattle.
    Bovine,
    /// Sheep.
    Ovine,
    /// Made to the human pattern.
    Recombinant,
    /// Not known.
    #[default]
    Unknown,
}

/// A medicine that matters here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Medicine {
    /// Salicylates in large doses, other NSAIDs.
    Salicylates,
    /// Cortisone, ACTH.
    Corticosteroids,
    /// Oestrogens.
    Oestrogens,
    /// Antihistamines.
    Antihistamines,
    /// Heparin.
    Heparin,
    /// Aminoglycosides.
    Aminoglycosides,
    /// Dopamine or an alpha-agonist.
    AlphaAgonists,
    /// Furosemide, a benzodiazepine or phenytoin by injection.
    Incompatible,
}

/// Pregnancy and nursing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pregnancy {
    /// Neither.
    Neither,
    /// Pregnant.
    Pregnant,
    /// Breastfeeding.
    Breastfeeding,
    /// Not known.
    #[default]
    Unknown,
}

/// What was asked before treatment.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Answers {
    /// An earlier reaction to hyaluronidase.
    pub previous_reaction: Answer,
    /// An allergic reaction to a bee sting.
    pub bee: Answer,
    /// An allergic reaction to a wasp sting.
    pub wasp: Answer,
    /// Desensitised against the venom.
    pub desensitised: Answer,
    /// Where the enzyme at hand comes from.
    pub species: Species,
    /// Medicines taken.
    pub medicines: Vec<Medicine>,
    /// Pregnancy and nursing.
    pub pregnancy: Pregnancy,
}

/// Whether there is time to test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Urgency {
    /// Tissue is dying.
    Urgent,
    /// It can wait.
    Planned,
}

/// The way that the answers leave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Urgent: no test, readiness for anaphylaxis, go on.
    GoOn,
    /// Urgent with a known reaction: weigh it against the tissue, with help on the line.
    Weigh,
    /// Planned: test first. `raised` when a sting allergy, or what is not known, makes a reaction
    /// likelier.
    Test {
        /// A reaction is likelier than usual.
        raised: bool,
    },
    /// Planned: to an allergist before anything is injected.
    Allergist,
    /// Planned: not while pregnant.
    Postpone,
    /// Planned: not treated with hyaluronidase.
    Closed,
}

/// Something that the answers bring up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// The label forbids the enzyme after a reaction to it.
    KnownReaction,
    /// Of wasp-allergic people without immunotherapy more than one in five was prick-positive.
    Wasp,
    /// Bee-allergic people are often sensitised to bee hyaluronidase; none reacted to the medicine.
    Bee,
    /// After venom immunotherapy none was prick-positive.
    Desensitised,
    /// Stings were not asked about, or not known.
    StingsUnknown,
    /// More enzyme may be needed.
    Blunts(Medicine),
    /// Inhibits the enzyme.
    Inhibits(Medicine),
    /// Not to be given to enhance this medicine.
    NotWith(Medicine),
    /// Not to be mixed with these in one syringe.
    NotMixed,
    /// Antihistamines can hide a positive skin test.
    HidesTest,
    /// Avoid in pregnancy unless nothing safer exists.
    Pregnancy,
    /// Care while breastfeeding; some labels forbid it.
    Breastfeeding,
}

impl Caution {
    /// Who says so; `None` for what is from memory.
    pub const fn source(self) -> Option<Source> {
        match self {
            Self::KnownReaction | Self::Pregnancy | Self::Breastfeeding => Some(src::LABEL_UK),
            Self::Wasp | Self::Desensitised => Some(src::WASP_2024),
            Self::Bee => Some(src::VENOM_2024),
            Self::Blunts(_) | Self::NotWith(_) | Self::NotMixed => Some(src::LABEL_US),
            // Seen in a monograph's copy only, or from memory.
            Self::Inhibits(_) | Self::HidesTest | Self::StingsUnknown => None,
        }
    }
}

/// The way and what to keep in mind on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Screen {
    /// The way.
    pub way: Way,
    /// What to keep in mind.
    pub cautions: Vec<Caution>,
}

/// What the answers leave open.
pub fn screen(answers: &Answers, urgency: Urgency) -> Screen {
    Screen { way: way(answers, urgency), cautions: cautions(answers, urgency) }
}

fn way(answers: &Answers, urgency: Urgency) -> Way {
    let reacted = answers.previous_reaction == Answer::Yes;
    match urgency {
        Urgency::Urgent if reacted => Way::Weigh,
        Urgency::Urgent => Way::GoOn,
        Urgency::Planned if reacted => Way::Closed,
        Urgency::Planned if answers.pregnancy == Pregnancy::Pregnant => Way::Postpone,
        Urgency::Planned if answers.wasp == Answer::Yes && answers.desensitised != Answer::Yes => {
            Way::Allergist
        }
        // Not knowing is not the same as no: the bar is raised until it is known.
        Urgency::Planned => {
            let known = [answers.previous_reaction, answers.bee, answers.wasp];
            Way::Test { raised: known.iter().any(|answer| *answer != Answer::No) }
        }
    }
}

fn cautions(answers: &Answers, urgency: Urgency) -> Vec<Caution> {
    let mut found = Vec::new();
    let mut add = |when: bool, caution| {
        if when {
            found.push(caution);
        }
    };
    let stung = answers.bee == Answer::Yes || answers.wasp == Answer::Yes;
    add(answers.previous_reaction == Answer::Yes, Caution::KnownReaction);
    add(answers.wasp == Answer::Yes && answers.desensitised != Answer::Yes, Caution::Wasp);
    add(answers.bee == Answer::Yes, Caution::Bee);
    add(stung && answers.desensitised == Answer::Yes, Caution::Desensitised);
    // In an occlusion nothing hangs on it, and every word costs time.
    add(
        urgency == Urgency::Planned && [answers.bee, answers.wasp].contains(&Answer::Unknown),
        Caution::StingsUnknown,
    );
    add(answers.pregnancy == Pregnancy::Pregnant, Caution::Pregnancy);
    add(answers.pregnancy == Pregnancy::Breastfeeding, Caution::Breastfeeding);
    for medicine in &answers.medicines {
        match medicine {
            Medicine::Salicylates | Medicine::Corticosteroids | Medicine::Oestrogens => {
                add(true, Caution::Blunts(*medicine));
            }
            Medicine::Antihistamines => {
                add(true, Caution::Blunts(*medicine));
                add(urgency == Urgency::Planned, Caution::HidesTest);
            }
            Medicine::Heparin | Medicine::Aminoglycosides => {
                add(true, Caution::Inhibits(*medicine));
            }
            Medicine::AlphaAgonists => add(true, Caution::NotWith(*medicine)),
            Medicine::Incompatible => add(true, Caution::NotMixed),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clear() -> Answers {
        Answers {
            previous_reaction: Answer::No,
            bee: Answer::No,
            wasp: Answer::No,
            pregnancy: Pregnancy::Neither,
            ..Answers::default()
        }
    }

    #[test]
    fn urgent_is_never_tested() {
        for previous_reaction in [Answer::No, Answer::Yes, Answer::Unknown] {
            for wasp in [Answer::No, Answer::Yes, Answer::Unknown] {
                let answers = Answers { previous_reaction, wasp, ..clear() };
                assert!(!matches!(way(&answers, Urgency::Urgent), Way::Test { .. }));
            }
        }
        let reacted = Answers { previous_reaction: Answer::Yes, ..clear() };
        assert_eq!(way(&reacted, Urgency::Urgent), Way::Weigh);
    }

    #[test]
    fn planned_is_always_tested_or_stopped() {
        assert_eq!(way(&clear(), Urgency::Planned), Way::Test { raised: false });
        let reacted = Answers { previous_reaction: Answer::Yes, ..clear() };
        assert_eq!(way(&reacted, Urgency::Planned), Way::Closed);
        let pregnant = Answers { pregnancy: Pregnancy::Pregnant, ..clear() };
        assert_eq!(way(&pregnant, Urgency::Planned), Way::Postpone);
        assert_eq!(way(&Answers::default(), Urgency::Planned), Way::Test { raised: true });
        let unknown = Answers { previous_reaction: Answer::Unknown, ..clear() };
        assert_eq!(way(&unknown, Urgency::Planned), Way::Test { raised: true });
    }

    #[test]
    fn wasp_and_bee_are_not_the_same() {
        let wasp = Answers { wasp: Answer::Yes, ..clear() };
        assert_eq!(way(&wasp, Urgency::Planned), Way::Allergist);
        let treated = Answers { desensitised: Answer::Yes, ..wasp };
        assert_eq!(way(&treated, Urgency::Planned), Way::Test { raised: true });
        let bee = Answers { bee: Answer::Yes, ..clear() };
        assert_eq!(way(&bee, Urgency::Planned), Way::Test { raised: true });
    }

    #[test]
    fn medicines_are_brought_up() {
        let answers =
            Answers { medicines: vec![Medicine::Antihistamines, Medicine::Heparin], ..clear() };
        let found = screen(&answers, Urgency::Planned).cautions;
        assert_eq!(
            found,
            [
                Caution::Blunts(Medicine::Antihistamines),
                Caution::HidesTest,
                Caution::Inhibits(Medicine::Heparin)
            ]
        );
    }
}
