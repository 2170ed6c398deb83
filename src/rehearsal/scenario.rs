//! What a rehearsal is about: who the patient is, what is in the bag, what comes when, and how it
//! ends rightly.

use crate::care::adjunct::Asked;
use crate::care::allergy::{Answer, Answers, Medicine, Pregnancy, Species};
use crate::care::refill::{Person, Sex};
use crate::care::rounds::HandOver;
use crate::care::situation::Filler;
use crate::kit::Vial;
use crate::measure::{Area, Date, Mass, Span, Units};
use crate::protocol::adjunct::Concern;
use crate::protocol::simulation as figures;
use crate::protocol::zone::Zone;
use serde::{Deserialize, Serialize};

/// A scenario.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Scenario {
    /// An artery of the upper lip, seen at once.
    Lip,
    /// Nose and nasolabial fold, seen after an hour and a half.
    NoseWithFold,
    /// Seen after three days, with pustules.
    Late,
    /// A vein: blue, and refill is quick.
    Venous,
    /// Sight goes on the way.
    Vision,
    /// The patient reacts to the enzyme.
    Anaphylaxis,
    /// The first vial in the bag is out of date.
    Expired,
}

impl Scenario {
    /// All of them, the plainest first.
    pub const ALL: [Self; 7] = [
        Self::Lip,
        Self::NoseWithFold,
        Self::Expired,
        Self::Venous,
        Self::Late,
        Self::Vision,
        Self::Anaphylaxis,
    ];

    /// What it is about.
    pub const fn brief(self) -> &'static Brief {
        match self {
            Self::Lip => &LIP,
            Self::NoseWithFold => &NOSE_WITH_FOLD,
            Self::Late => &LATE,
            Self::Venous => &VENOUS,
            Self::Vision => &VISION,
            Self::Anaphylaxis => &ANAPHYLAXIS,
            Self::Expired => &EXPIRED,
        }
    }
}

/// What the skin looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Picture {
    /// An artery is blocked: pale, then mottled, slow refill.
    Arterial,
    /// A vein is blocked: blue, quick refill.
    Venous,
}

/// Some vials in the bag that are alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InBag {
    /// How many.
    pub count: u32,
    /// Units on each label.
    pub units: Units,
    /// Batch as printed.
    pub batch: &'static str,
    /// Months from the month of the start to that of the expiry; negative when it has gone by.
    pub months: i16,
}

impl InBag {
    /// The expiry, the last day of its month.
    pub fn expiry(&self, today: Date) -> Option<Date> {
        let months = today.months_later(self.months)?;
        Some(months.last_of_month())
    }

    /// Whether it has gone by when the rehearsal starts.
    pub const fn expired(&self) -> bool {
        self.months < 0
    }
}

/// What is in the bag.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bag {
    /// Vials of enzyme, those on top first.
    pub vials: &'static [InBag],
    /// Ampoules of adrenaline, 1 mL of 1 mg/mL each.
    pub adrenaline: u32,
    /// Whether there is aspirin.
    pub aspirin: bool,
}

impl Bag {
    /// The vials one by one, those on top first, as they are taken in hand on this day.
    pub fn one_by_one(&self, today: Date) -> Vec<Vial> {
        let each = self.vials.iter().flat_map(|some| (0..some.count).map(move |_| some));
        (1..)
            .zip(each)
            .map(|(number, some)| Vial {
                number,
                units: some.units,
                batch: some.batch.to_owned(),
                expiry: some.expiry(today),
                from: None,
                solution: None,
            })
            .collect()
    }
}

/// Something that comes on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Coming {
    /// What.
    pub what: Comes,
    /// When: the first of these that happens.
    pub when: &'static [When],
}

/// What can come on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Comes {
    /// Sight goes in the left eye.
    SightLoss,
    /// A severe reaction begins.
    Reaction,
}

/// When it comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum When {
    /// So long after the start.
    AfterStart(Span),
    /// So long after this look, counted from 1.
    AfterLook(u32, Span),
    /// So long after the first unit of this round, counted from 1.
    AfterRound(u32, Span),
}

/// How it ends rightly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RightEnd {
    /// The skin has its blood back, and the case is closed as done.
    Perfused,
    /// Handed over at once for this reason.
    HandedOver(HandOver),
    /// Treated all the same, and handed over besides for this reason.
    TreatedAndHandedOver(HandOver),
}

/// A scenario, told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Brief {
    /// Age and sex.
    pub person: Person,
    /// Weight.
    pub weight: Mass,
    /// What was injected, as the notes have it.
    pub filler: Filler,
    /// Zones without blood.
    pub zones: &'static [Zone],
    /// Their surface at the start.
    pub area: Area,
    /// How long before the start the first sign was seen.
    pub onset: Span,
    /// Artery or vein.
    pub picture: Picture,
    /// What is in the bag.
    pub bag: Bag,
    /// Rounds of full effect that it takes.
    pub rounds: u32,
    /// What comes on the way.
    pub coming: &'static [Coming],
    /// How it ends rightly.
    pub right_end: RightEnd,
    /// The rest of the patient, in figures.
    pub patient: figures::Patient,
    reacted: Answer,
    wasp: Answer,
    medicines: &'static [Medicine],
    aspirin: &'static [(Concern, Answer)],
}

impl Brief {
    /// What the patient answers when asked about allergy.
    pub fn answers(&self) -> Answers {
        Answers {
            previous_reaction: self.reacted,
            bee: Answer::No,
            wasp: self.wasp,
            desensitised: Answer::No,
            species: Species::Ovine,
            medicines: self.medicines.to_vec(),
            pregnancy: Pregnancy::Neither,
        }
    }

    /// What the patient answers when asked before aspirin.
    pub fn before_aspirin(&self) -> Asked {
        let mut asked = Asked::default();
        for concern in Concern::ALL {
            let told = self.aspirin.iter().find(|(other, _)| *other == concern);
            asked.put(concern, told.map_or(Answer::No, |(_, answer)| *answer));
        }
        asked
    }
}

const fn some(count: u32, batch: &'static str, months: i16) -> InBag {
    InBag { count, units: figures::VIAL, batch, months }
}

const FILLED: Bag = Bag {
    vials: &[some(figures::VIALS, figures::BATCH, figures::MONTHS_LEFT)],
    adrenaline: figures::ADRENALINE,
    aspirin: true,
};

const fn brief(patient: figures::Patient, sex: Sex, zones: &'static [Zone]) -> Brief {
    Brief {
        person: Person { years: Some(patient.years), sex: Some(sex) },
        weight: patient.weight,
        filler: Filler::Hyaluronic,
        zones,
        area: patient.area,
        onset: patient.onset,
        picture: Picture::Arterial,
        bag: FILLED,
        rounds: patient.rounds,
        coming: &[],
        right_end: RightEnd::Perfused,
        patient,
        reacted: Answer::No,
        wasp: Answer::No,
        medicines: &[],
        aspirin: &[],
    }
}

static LIP: Brief = brief(figures::LIP, Sex::Female, &[Zone::UpperLip]);

static NOSE_WITH_FOLD: Brief = Brief {
    aspirin: &[(Concern::Ulcer, Answer::Yes)],
    ..brief(figures::NOSE_WITH_FOLD, Sex::Male, &[Zone::NasolabialFold, Zone::NoseTip, Zone::Ala])
};

static LATE: Brief = Brief {
    filler: Filler::Unknown,
    medicines: &[Medicine::Oestrogens],
    right_end: RightEnd::TreatedAndHandedOver(HandOver::Necrosis),
    ..brief(figures::LATE, Sex::Female, &[Zone::NasolabialFold, Zone::Ala])
};

static VENOUS: Brief = Brief {
    picture: Picture::Venous,
    ..brief(figures::VENOUS, Sex::Female, &[Zone::Chin, Zone::LowerLip])
};

static VISION: Brief = Brief {
    coming: &[Coming {
        what: Comes::SightLoss,
        when: &[
            When::AfterLook(figures::SIGHT_AFTER_LOOK.0, figures::SIGHT_AFTER_LOOK.1),
            When::AfterStart(figures::SIGHT_AT_LATEST),
        ],
    }],
    right_end: RightEnd::HandedOver(HandOver::Sight),
    ..brief(figures::VISION, Sex::Female, &[Zone::Glabella, Zone::NoseTip])
};

static ANAPHYLAXIS: Brief = Brief {
    coming: &[Coming {
        what: Comes::Reaction,
        when: &[When::AfterRound(figures::REACTION_AFTER_ROUND.0, figures::REACTION_AFTER_ROUND.1)],
    }],
    wasp: Answer::Yes,
    right_end: RightEnd::HandedOver(HandOver::Reaction),
    ..brief(figures::ANAPHYLAXIS, Sex::Male, &[Zone::NasolabialFold])
};

static EXPIRED: Brief = Brief {
    bag: Bag {
        vials: &[
            some(1, figures::BATCH_PAST, figures::MONTHS_PAST),
            some(figures::VIALS - 1, figures::BATCH, figures::MONTHS_LEFT),
        ],
        ..FILLED
    },
    ..brief(figures::EXPIRED, Sex::Female, &[Zone::LowerLip])
};
