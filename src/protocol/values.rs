//! The values that a clinic can look up and, within bounds, set.

use super::source as src;
use super::value::{Basis, Control, Finding, Kind, PerMille, Quantity, Refused, Value};
use crate::measure::{Area, Length, Span, Strength, Units, Volume};
use crate::plane::Lattice;
use serde::{Deserialize, Serialize};

/// Which national table applies where they differ: adrenaline and observation.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Region {
    /// Resuscitation Council UK.
    #[default]
    Uk,
    /// ASCIA, Australia and New Zealand.
    Australia,
}

impl Region {
    /// The other one, to show where the two differ.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Uk => Self::Australia,
            Self::Australia => Self::Uk,
        }
    }
}

const fn says(low: Quantity, high: Quantity, basis: Basis, setting: &'static str) -> Finding {
    Finding { low, high, basis, setting }
}

/// Declares [`Protocol`] and [`Id`] from one list, so that no value can be used without being
/// listed, nor listed without bounds and findings.
macro_rules! values {
    ($($(#[$doc:meta])* $control:ident $id:ident $field:ident: $type:ty as $kind:ident = $default:expr,
        in $low:expr, $high:expr;
        $(@ $from:expr, $to:expr => $basis:expr, $setting:literal;)+)*) => {
        /// The values in force. Each field's unit is its type's.
        #[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(default)]
        pub struct Protocol {
            /// Which national table applies.
            pub region: Region,
            /// How the points of a grid lie.
            pub lattice: Lattice,
            $($(#[$doc])* pub $field: $type,)*
        }

        impl Default for Protocol {
            fn default() -> Self {
                Self {
                    region: Region::default(),
                    lattice: Lattice::default(),
                    $($field: $default,)*
                }
            }
        }

        /// Names a value of [`Protocol`].
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Id { $($(#[$doc])* $id,)* }

        const TABLE: &[Value] = &[$(Value {
            id: Id::$id,
            default: Quantity::$kind($default),
            low: Quantity::$kind($low),
            high: Quantity::$kind($high),
            control: Control::$control,
            findings: &[$(says(Quantity::$kind($from), Quantity::$kind($to), $basis, $setting)),+],
        }),*];

        impl Protocol {
            /// The value in force.
            pub fn get(&self, id: Id) -> Quantity {
                match id { $(Id::$id => self.$field.wrap(),)* }
            }

            fn put(&mut self, id: Id, quantity: Quantity) {
                match id { $(Id::$id => if let Some(inner) = <$type>::unwrap(quantity) {
                    self.$field = inner;
                },)* }
            }
        }
    };
}

const fn u(units: u64) -> Units {
    Units::whole(units)
}
const fn ul(volume: u64) -> Volume {
    Volume::ul(volume)
}
const fn s(strength: u64) -> Strength {
    Strength::per_ml(strength)
}
const fn min(minutes: u64) -> Span {
    Span::minutes(minutes)
}

values! {
    /// Units in one vial as supplied.
    Clinic VialUnits vial_units: Units as Units = u(1500), in u(50), u(10_000);
        @ u(1500), u(1500) => Basis::Published(src::LABEL_UK), "freeze-dried powder";
        @ u(150), u(1500) => Basis::Published(src::LABEL_DE), "powders of 150, 300 and 1500";
        @ u(150), u(200) => Basis::Published(src::LABEL_US), "solutions of 150 and 200 per mL";

    /// Diluent that one vial can hold.
    Clinic VialHolds vial_holds: Volume as Volume = Volume::ml(3), in ul(500), Volume::ml(30);
        @ ul(2_000), ul(10_000) => Basis::FromMemory, "vials differ: look at the one in your hand";

    /// Capacity of the syringe in the hand.
    Clinic SyringeHolds syringe_holds: Volume as Volume = Volume::ml(1), in ul(300), Volume::ml(10);
        @ Volume::ml(1), Volume::ml(1) => Basis::CommonPractice, "made up to 1 mL";

    /// Interval of the marks on that syringe.
    Clinic SyringeMarks syringe_marks: Volume as Volume = ul(10), in ul(5), ul(1_000);
        @ ul(10), ul(10) => Basis::FromMemory, "1 mL syringes with marks of 0.01 mL are sold";
        @ ul(50), ul(50) => Basis::FromMemory, "ISO 7886-1: the widest marks allowed below 2 mL";

    /// Strength for an occlusion.
    Clinic UrgentStrength urgent_strength: Strength as Strength = s(500), in s(150), s(1500);
        @ s(500), s(600) => Basis::CommonPractice, "occlusion";
        @ s(1500), s(1500) => Basis::SecondHand(src::TRADE_2022), "upper end named for emergencies";

    /// Strength for taking part of a correction away.
    Clinic PartStrength part_strength: Strength as Strength = s(150), in s(15), s(600);
        @ s(150), s(150) => Basis::CommonPractice, "small corrections";
        @ Strength::per_ml(75), s(150) => Basis::Published(src::PERIOCULAR_2024),
            "periocular: 150 used by 66 %, 75 by 31 %, no difference found (p 0.625)";

    /// Strength for taking all of a correction away.
    Clinic AllStrength all_strength: Strength as Strength = s(300), in s(75), s(1500);
        @ s(300), s(300) => Basis::CommonPractice, "taking all of it away";

    /// Volume laid at each point.
    Clinic Bolus bolus: Volume as Volume = ul(100), in ul(10), ul(300);
        @ ul(100), ul(100) => Basis::CommonPractice, "each point of an even grid";

    /// Distance between the points of the grid.
    Clinic Spacing spacing: Length as Length = Length::mm(10), in Length::mm(4), Length::mm(20);
        @ Length::mm(10), Length::mm(10) => Basis::Proposal,
            "one point a cm²: at 500 units/mL and 0.1 mL this lays 50 units on each cm²";

    /// How far outside the outline points of the grid may lie.
    Clinic Margin margin: Length as Length = Length::ZERO, in Length::ZERO, Length::mm(20);
        @ Length::ZERO, Length::ZERO => Basis::Proposal,
            "inside the outline only; no source was found for a margin";

    /// Units for one facial area in one round.
    Clinic AreaUnits area_units: Units as Units = u(500), in u(150), u(1500);
        @ u(500), u(500) => Basis::CommonPractice, "one lip about 500";
        @ u(500), u(500) => Basis::FromMemory, "500 for one area, 1000 for two, 1500 for three, each hour";
        @ u(450), u(450) => Basis::FromMemory, "other accounts: 450 for one area, 900 for two";

    /// Units on one cm² of territory, as published.
    Fixed PerArea per_area: Units as Units = u(40), in u(40), u(40);
        @ u(40), u(40) => Basis::DerivedFrom(src::PER_AREA_2018),
            "printed as 40 IU per cm; read here as per cm², which needs confirming";

    /// Fewest units usual in one round of an occlusion.
    Clinic RoundLow round_low: Units as Units = u(500), in u(200), u(3_000);
        @ u(500), u(500) => Basis::CommonPractice, "by surface";
        @ u(500), u(500) => Basis::Published(src::SCARS_2024),
            "up to 500: scars resolved in 88.1 %; above 500 in 69.6 %; p 0.18, not significant";

    /// Most units usual in one round of an occlusion.
    Clinic RoundHigh round_high: Units as Units = u(2_000), in u(500), u(6_000);
        @ u(2_000), u(2_000) => Basis::CommonPractice, "by surface; no published ceiling was found";
        @ Units::milli(1_519_400), Units::milli(1_519_400) => Basis::Published(src::FLOODING_2023),
            "mean of blind flooding, which had failed in all; 122.5 when aimed by ultrasound";
        @ u(1_500), u(1_500) => Basis::Published(src::DELAYED_2020), "mean of a treated case, ten cases";

    /// Least for a first treatment of an occlusion.
    Fixed LeastUnits least_units: Units as Units = u(200), in u(200), u(200);
        @ u(200), u(200) => Basis::Published(src::CONSENSUS_2015), "at least 200, at once";

    /// Time from the end of a round to the next look.
    Clinic RoundInterval round_interval: Span as Span = min(60), in min(10), min(120);
        @ min(60), min(60) => Basis::Published(src::HIGH_DOSE_2017), "hourly until resolved";
        @ min(60), min(60) => Basis::Published(src::CONSENSUS_2015), "again if no better within 60 minutes";
        @ min(15), min(15) => Basis::SecondHand(src::INTERVAL_2020),
            "rabbit: four doses 15 minutes apart kept more skin than one large dose";

    /// Rounds without improvement after which to hand over.
    Clinic RoundsBeforeHandover rounds_before_handover: u32 as Count = 4, in 1, 8;
        @ 4, 5 => Basis::CommonPractice, "several thousand units over 4 to 5 hours";

    /// Low end of units for each 0.1 mL of filler, planned work.
    Clinic FillerLow filler_low: Units as Units = u(15), in u(1), u(150);
        @ u(15), u(15) => Basis::CommonPractice, "15 to 30 for each 0.1 mL of filler";
        @ Units::milli(1_500), u(9) => Basis::Published(src::NODULES_2018), "trial, small nodules, weekly, three times";
        @ u(10), u(10) => Basis::Published(src::BOLUS_2021), "human, firmest gel: more than this";
        @ u(5), u(10) => Basis::FromMemory, "5 for a 20 mg/mL gel, 10 for a 24 mg/mL gel";

    /// High end of units for each 0.1 mL of filler, planned work.
    Clinic FillerHigh filler_high: Units as Units = u(30), in u(2), u(300);
        @ u(30), u(30) => Basis::CommonPractice, "15 to 30 for each 0.1 mL of filler";
        @ u(150), u(150) => Basis::Published(src::RESISTANT_2025), "in vitro, most resistant gel within 1 hour";

    /// How long to press before timing refill.
    Clinic RefillPress refill_press: Span as Span = Span::seconds(5), in Span::seconds(3), Span::seconds(10);
        @ Span::seconds(5), Span::seconds(5) => Basis::Published(src::REFILL_2015), "moderate pressure, 20 to 25 °C";
        @ Span::seconds(5), Span::seconds(5) => Basis::SecondHand(src::OCCLUSION_2020), "about 5 s, both sides";

    /// Refill that may mean compromise, whatever the age.
    Fixed RefillAlert refill_alert: Span as Span = Span::seconds(3), in Span::seconds(3), Span::seconds(3);
        @ Span::seconds(3), Span::seconds(3) => Basis::SecondHand(src::OCCLUSION_2020), "3 s and more may mean compromise";
        @ Span::seconds(3), Span::seconds(3) => Basis::Published(src::REFILL_2015), "finger of a child: 3 s and more abnormal";

    /// Difference between two refill times that is more than a reader's noise.
    Clinic RefillNoise refill_noise: Span as Span = Span::millis(200), in Span::millis(200), Span::millis(1_000);
        @ Span::millis(200), Span::millis(200) => Basis::Published(src::REFILL_2022),
            "fingertip, trained readers; by hand on a face expect more";

    /// Fall in a pain score that counts as improvement.
    Clinic PainStep pain_step: u32 as Count = 2, in 1, 5;
        @ 2, 2 => Basis::FromMemory, "least change on a scale of 0 to 10 that patients notice";

    /// Low end of the skin test's dose.
    Clinic SkinTestLow skin_test_low: Units as Units = u(15), in u(1), u(30);
        @ u(15), u(15) => Basis::CommonPractice, "back of the hand, 15 to 30";
        @ u(3), u(3) => Basis::Published(src::LABEL_US), "0.02 mL of 150 units/mL into the skin";
        @ u(4), u(20) => Basis::FromMemory, "filler practice, into the skin; looked for and not confirmed";

    /// High end of the skin test's dose.
    Clinic SkinTestHigh skin_test_high: Units as Units = u(30), in u(3), u(75);
        @ u(30), u(30) => Basis::CommonPractice, "back of the hand, 15 to 30";

    /// When to read the skin test first.
    Clinic SkinTestRead skin_test_read: Span as Span = min(15), in min(5), min(30);
        @ min(15), min(30) => Basis::CommonPractice, "read at 15 to 30 minutes";
        @ min(5), min(30) => Basis::Published(src::LABEL_US), "within 5 minutes, lasting 20 to 30";
        @ min(15), min(30) => Basis::Published(src::INTRADERMAL_2020), "15 to 30 by guideline, each in its table";

    /// When to read the skin test last.
    Clinic SkinTestLast skin_test_last: Span as Span = min(30), in min(20), min(60);
        @ min(30), min(30) => Basis::CommonPractice, "read at 15 to 30 minutes";
        @ min(30), min(30) => Basis::Published(src::INTRADERMAL_2020), "latest immediate reading, ESCD";

    /// Territory above which the figure is questioned.
    Clinic AreaQuestion area_question: Area as Area = Area::cm2(100), in Area::cm2(30), Area::cm2(300);
        @ Area::cm2(100), Area::cm2(100) => Basis::Proposal, "more than a sixth of a whole face";

    /// Territory that no face has.
    Fixed AreaLimit area_limit: Area as Area = Area::cm2(600), in Area::cm2(600), Area::cm2(600);
        @ Area::cm2(520), Area::cm2(600) => Basis::DerivedFrom(src::FACE_BURNS), "3 % of 1.73 to 2.0 m²";

    /// Filler in one session above which the figure is questioned.
    Clinic FillerQuestion filler_question: Volume as Volume = Volume::ml(5), in Volume::ml(1), Volume::ml(20);
        @ Volume::ml(5), Volume::ml(5) => Basis::Proposal, "five full syringes of filler";

    /// Time until a planned correction is looked at again.
    Clinic PlannedReview planned_review: Span as Span = Span::days(14), in Span::days(2), Span::days(42);
        @ Span::days(14), Span::days(14) => Basis::FromMemory, "two weeks";
        @ Span::days(14), Span::days(14) => Basis::Published(src::BOLUS_2021), "gel went on changing until two weeks";

    /// Time between reviews of an occlusion, at first.
    Clinic ReviewDaily review_daily: Span as Span = Span::hours(24), in Span::hours(6), Span::hours(48);
        @ Span::hours(24), Span::hours(24) => Basis::SecondHand(src::OCCLUSION_2020),
            "may be daily at first, then spaced out, until resolved; in person if a delayed one is suspected";

    /// From the first sign, how long an occlusion is reviewed daily.
    Clinic ReviewDailyFor review_daily_for: Span as Span = Span::hours(72), in Span::hours(72), Span::days(14);
        @ Span::hours(72), Span::hours(72) => Basis::DerivedFrom(src::STAGES_2021),
            "pustules come at 72 hours: daily until they would have shown; until when is not published";

    /// Time between reviews of an occlusion, later.
    Clinic ReviewSpaced review_spaced: Span as Span = Span::days(7), in Span::days(2), Span::days(28);
        @ Span::days(7), Span::days(7) => Basis::Proposal, "spaced out, as the sources say, without saying how far";

    /// Time after a full removal before new filler.
    Clinic NewFiller new_filler: Span as Span = Span::days(14), in Span::days(2), Span::days(84);
        @ Span::days(14), Span::days(14) => Basis::CommonPractice, "about two weeks after a full removal";
        @ Span::hours(24), Span::hours(48) => Basis::Published(src::DURATION_2018), "how long the enzyme acts";

    /// How often patients react to the enzyme, in thousandths.
    Fixed ReactionRate reaction_rate: PerMille as PerMille = PerMille(1), in PerMille(1), PerMille(1);
        @ PerMille(1), PerMille(1) => Basis::CommonPractice, "hypersensitivity about 1 in 1000";
        @ PerMille(0), PerMille(1) => Basis::Published(src::LABEL_US), "urticaria or angio-oedema in fewer than 1 in 1000";
        @ PerMille(1), PerMille(7) => Basis::FromMemory, "filler papers: 0.05 to 0.69 %, rounded here";

    /// Time between two doses of adrenaline.
    Fixed AdrenalineRepeat adrenaline_repeat: Span as Span = min(5), in min(5), min(5);
        @ min(5), min(5) => Basis::Published(src::ANAPHYLAXIS_UK), "if airway, breathing or circulation problems persist";
        @ min(5), min(5) => Basis::Published(src::ANAPHYLAXIS_AU), "every 5 minutes as needed";

    /// Doses of adrenaline without improvement that make it refractory.
    Fixed RefractoryDoses refractory_doses: u32 as Count = 2, in 2, 2;
        @ 2, 2 => Basis::Published(src::ANAPHYLAXIS_UK), "no improvement after two appropriate doses into muscle";

    /// Vials that the clinic means to have at hand for an occlusion.
    Clinic VialsAtHand vials_at_hand: u32 as Count = 4, in 1, 40;
        @ 4, 4 => Basis::Proposal, "4 vials of 1500 are 4 rounds of 1500 units, hour by hour";

    /// How long before its expiry a thing in the kit is to be replaced.
    Clinic ExpiryNear expiry_near: Span as Span = Span::days(30), in Span::days(7), Span::days(120);
        @ Span::days(30), Span::days(30) => Basis::Proposal, "time to order and to receive";

    /// How long before its expiry a thing in the kit is named.
    Clinic ExpiryAhead expiry_ahead: Span as Span = Span::days(90), in Span::days(14), Span::days(360);
        @ Span::days(90), Span::days(90) => Basis::Proposal, "a quarter ahead";
}

/// Low ends with their high ends.
const RANGES: [(Id, Id); 5] = [
    (Id::ExpiryNear, Id::ExpiryAhead),
    (Id::RoundLow, Id::RoundHigh),
    (Id::FillerLow, Id::FillerHigh),
    (Id::SkinTestLow, Id::SkinTestHigh),
    (Id::SkinTestRead, Id::SkinTestLast),
];

impl Protocol {
    /// Every value with its bounds and sources, in the order of the work.
    pub const fn table() -> &'static [Value] {
        TABLE
    }

    /// One value with its bounds and sources.
    pub fn entry(id: Id) -> &'static Value {
        // The table and the names come from one list, so the place of one is the place of the other.
        &TABLE[id as usize]
    }

    /// The set with one value changed by the clinic.
    ///
    /// # Errors
    /// [`Refused`], as [`Value::accepts`] says; or when the change would set a low end above its
    /// high end, with the bound that it crossed. The set is then as it was.
    pub fn with(&self, id: Id, quantity: Quantity) -> Result<Self, Refused> {
        Self::entry(id).accepts(quantity)?;
        let mut changed = self.clone();
        changed.put(id, quantity);
        for (low, high) in RANGES {
            if changed.get(low).raw() > changed.get(high).raw() {
                let entry = Self::entry(id);
                return Err(if id == low {
                    Refused::OutOfBounds { low: entry.low, high: self.get(high) }
                } else {
                    Refused::OutOfBounds { low: self.get(low), high: entry.high }
                });
            }
        }
        Ok(changed)
    }

    /// A set that the clinic kept, as far as this version of the app accepts it, for cases to come.
    ///
    /// The whole set is kept, so an older version's published values lie in it too: they give way to
    /// those that stand here. So does what is out of bounds, and a range that ends before it begins.
    #[must_use]
    pub fn accepted(&self) -> Self {
        let mut accepted = Self { region: self.region, lattice: self.lattice, ..Self::default() };
        for value in TABLE.iter().filter(|value| value.accepts(self.get(value.id)).is_ok()) {
            accepted.put(value.id, self.get(value.id));
        }
        for (low, high) in RANGES {
            if accepted.get(low).raw() > accepted.get(high).raw() {
                for id in [low, high] {
                    accepted.put(id, Self::entry(id).default);
                }
            }
        }
        accepted
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_stands_within_its_bounds_and_in_its_place() {
        let protocol = Protocol::default();
        for (place, value) in Protocol::table().iter().enumerate() {
            assert_eq!(value.id as usize, place);
            assert_eq!(protocol.get(value.id), value.default);
            let bounds = value.low.raw()..=value.high.raw();
            assert!(bounds.contains(&value.default.raw()), "{:?}", value.id);
            assert!(value.low.same_kind(value.default) && value.high.same_kind(value.default));
        }
    }

    #[test]
    fn every_finding_names_its_basis_and_where_it_was_found() {
        for value in Protocol::table() {
            assert!(!value.findings.is_empty());
            for finding in value.findings {
                assert!(!finding.setting.is_empty(), "{:?}", value.id);
                assert!(finding.low.raw() <= finding.high.raw());
                assert!(finding.basis.source().is_none_or(|source| src::ALL.contains(&source)));
            }
        }
    }

    #[test]
    fn the_clinic_stays_within_bounds_and_low_below_high() {
        let protocol = Protocol::default();
        let set = |id, quantity| protocol.with(id, quantity);
        assert_eq!(set(Id::Bolus, Quantity::Volume(ul(50))).unwrap().bolus, ul(50));
        assert!(matches!(
            set(Id::Bolus, Quantity::Volume(ul(500))),
            Err(Refused::OutOfBounds { .. })
        ));
        assert_eq!(set(Id::Bolus, Quantity::Units(u(1))), Err(Refused::WrongKind));
        assert_eq!(set(Id::LeastUnits, Quantity::Units(u(100))), Err(Refused::Fixed));
        assert!(matches!(
            set(Id::RoundLow, Quantity::Units(u(2_500))),
            Err(Refused::OutOfBounds { .. })
        ));
    }

    #[test]
    fn a_kept_set_is_taken_as_far_as_it_is_accepted() {
        let supplied = Protocol::default();
        let own = supplied.with(Id::Bolus, Quantity::Volume(ul(50))).unwrap();
        assert_eq!(own.accepted(), own);
        let kept = Protocol {
            region: Region::Australia,
            bolus: Volume::ml(5),
            adrenaline_repeat: min(50),
            round_low: u(2_500),
            area_units: u(450),
            ..supplied.clone()
        };
        let region = Region::Australia;
        assert_eq!(kept.accepted(), Protocol { region, area_units: u(450), ..supplied });
    }

    #[test]
    fn each_region_is_the_others_other() {
        for region in [Region::Uk, Region::Australia] {
            assert_ne!(region.other(), region);
            assert_eq!(region.other().other(), region);
        }
    }

    #[test]
    fn disagreement_is_seen() {
        // Nobody printed these: one reading of a lost sign, one product of two figures.
        for id in [Id::PerArea, Id::AreaLimit] {
            let finding = Protocol::entry(id).findings[0];
            assert!(matches!(finding.basis, Basis::DerivedFrom(_)), "{id:?}");
        }
        assert!(Protocol::entry(Id::AreaUnits).disputed());
        assert!(!Protocol::entry(Id::AdrenalineRepeat).disputed());
    }
}
