//! Step 3: the skin or the filler, the dose, the strength, what there is.

use super::numbers;
use crate::care::dilution::Plan;
use crate::care::dose::{Supply, Urgent};
use crate::care::territory::Refused;
use crate::measure::{Area, Length, Strength, Units, Volume};
use crate::protocol::strengths::Offer;
use crate::protocol::{Protocol, filler_dose};
use crate::ui::parts::Finding;

pub const ZONES: &str = "Where is the skin without blood?";
pub const ZONE_WANTED: &str = "Choose where, or type its size.";
pub const SIZE: &str = "Its size";
pub const USUAL: &str = "Usual";
pub const TYPED: &str = "cm²";
pub const WHICH_ZONES: &str = "Zones";
pub const DRAWN: &str = "Drawn";
pub const DRAW: &str = "Draw round it";
pub const REDRAW: &str = "Draw it anew";
pub const LATTICE: &str = "How the points lie";
pub const REACH: &str = "Farthest skin from a point";
pub const RECTANGLE: &str = "Length × width";
pub const AREA: &str = "Skin without blood";
pub const CM2: &str = "cm²";
pub const LENGTH: &str = "Length";
pub const WIDTH: &str = "Width";
pub const MM: &str = "mm";
pub const SIZE_WANTED: &str = "Type the size.";
pub const WHY_USUAL: &str = "What the usual sizes are";
pub const USUAL_IS_A_START: &str = "One side each, and only a start: the skin in front of you decides. Measure it when there is time.";
pub const WHY: &str = "What the sources say";
pub const SURE: &str = "It is so";

pub const BY_GRID: &str = "This round";
pub const BY_AREAS: &str = "By facial area";
pub const BY_PUBLISHED: &str = "As published, per cm²";
pub const POINTS: &str = "Points";
pub const VOLUME: &str = "Volume";
pub const UNITS: &str = "units";
pub const UNITS_PER_ML: &str = "units/mL";
pub const ML: &str = "mL";
pub const DISAGREE: &str = "The routes disagree";
pub const MORE_IS_NOT_BETTER: &str = "More is not always better";
pub const EVIDENCE: &str =
    "What was found with fewer and with more units in a round. No ceiling is published.";
pub const INTO_RANGE: &str = "Each of these alone brings it into the range:";
pub const GRID: &str = "Change the grid";

pub const STRENGTH: &str = "Strength, units/mL";
pub const OTHER_STRENGTH: &str = "Another strength";
pub const WHY_STRENGTH: &str = "Why this strength";

pub const IN_KIT: &str = "Vials in the kit, units in one";
pub const VIALS_AT_HAND: &str = "Vials at hand";
pub const VIALS_UNTOLD: &str = "Not counted";
pub const VIALS_TOLD: &str = "Counted";
pub const HOW_MANY: &str = "How many";
pub const ONE_LESS: &str = "One vial less";
pub const ONE_MORE: &str = "One vial more";
pub const VIALS_NEEDED: &str = "Vials it takes";
pub const SYRINGES: &str = "Syringes";

pub const OTHER_THINGS: &str = "Not what I have";
pub const VIAL: &str = "Units in one vial";
pub const POWDER: &str =
    "A vial of powder. One that comes as a ready solution is not counted right here.";
pub const OTHER_VIAL: &str = "Another vial";
pub const WHY_VIALS: &str = "What the labels say";
pub const SYRINGE: &str = "Syringe";
pub const OTHER_SYRINGE: &str = "Another syringe";
pub const HOLDS: &str = "Holds";
pub const MARKS: &str = "One mark is";
pub const USE_SYRINGE: &str = "Use this syringe";
pub const CANNOT: &str = "This cannot be made";

pub const WAYS: &str = "Other ways";
pub const WAY: &str = "How to make it";

pub const FILLER: &str = "How much filler is to go?";
pub const FILLER_VOLUME: &str = "Filler";
pub const FILLER_HINT: &str = "As noted when it was injected, or estimated.";
pub const FILLER_WANTED: &str = "Type the volume of filler.";
pub const RANGE: &str = "Dose";
pub const DOSE: &str = "Which dose?";
pub const LOW: &str = "Low";
pub const MIDDLE: &str = "Middle";
pub const HIGH: &str = "High";
pub const OTHER: &str = "Other";
pub const DOSE_TYPED: &str = "Your dose";
pub const DOSE_WANTED: &str = "Choose a dose.";
pub const REPORTS: &str = "What the sources used";
pub const DEPOSITS: &str = "Deposits";
pub const SMALLER: &str = "Other deposits";

pub const NOT_YET: &str = "Not yet";
pub const NOT_YET_WHY: &str =
    "The steps before this one are not done. Nothing is made before they are.";
pub const TO_THEM: &str = "To the step before";

/// The line above the question: which round it is for.
pub fn round(number: usize, given: Units) -> String {
    if given.is_zero() {
        format!("Round {number}")
    } else {
        format!("Round {number} · {} so far", numbers::units_named(given))
    }
}

/// Why a territory is none.
pub fn refused(refused: Refused) -> String {
    match refused {
        Refused::Empty => ZONE_WANTED.into(),
        Refused::LargerThanFace { given, most } => format!(
            "{} is more than a whole face, {} at most.",
            numbers::area_named(given),
            numbers::area_named(most)
        ),
    }
}

/// Asks again about a large territory.
pub fn large(area: Area, protocol: &Protocol) -> String {
    format!(
        "{} is a large territory: more than {}. Is it so?",
        numbers::area_named(area),
        numbers::area_named(protocol.area_question)
    )
}

/// That a questioned size is not confirmed.
pub const CONFIRM_SIZE: &str = "Look at the size again.";

/// What was drawn, in words.
pub fn drawn(area: Area, points: usize) -> String {
    format!("{} drawn, {points} points of the grid", numbers::area_named(area))
}

/// The grid in one line.
pub fn grid(area: Area, spacing: Length, bolus: Volume) -> String {
    format!(
        "{} · {} apart · {} each",
        numbers::area_named(area),
        numbers::length_named(spacing),
        numbers::volume_named(bolus)
    )
}

/// How the routes differ.
pub fn disagree(dose: &Urgent) -> String {
    format!(
        "The grid gives {}, the facial areas {}. The grid is what is injected.",
        numbers::units_named(dose.by_grid),
        dose.by_areas.map_or_else(String::new, numbers::units_named)
    )
}

/// A published figure for each cm².
pub fn per_area(protocol: &Protocol) -> String {
    format!("{} on each cm², to be confirmed", numbers::units(protocol.per_area))
}

/// A figure for each facial area.
pub fn per_facial_area(protocol: &Protocol) -> String {
    format!("{} for each", numbers::units(protocol.area_units))
}

/// What speaks against a dose.
pub fn outside(standing: &str, units: Units) -> String {
    format!("{}. {standing}.", numbers::units_named(units))
}

/// What speaks against a planned dose.
pub fn outside_range(dose: Units, low: Units, high: Units) -> String {
    format!(
        "{} is outside the range in force, {} units.",
        numbers::units_named(dose),
        numbers::units_range(low, high)
    )
}

/// The figure of a strength on a button of few words.
pub fn offered(offer: &Offer) -> String {
    numbers::strength(offer.strength)
}

/// What is behind the strengths offered.
pub fn offers(offers: &[Offer]) -> Vec<Finding> {
    offers
        .iter()
        .map(|offer| Finding {
            figure: numbers::strength_named(offer.strength),
            setting: offer.setting.to_owned(),
            citation: super::protocol::citation(offer.basis),
            status: super::protocol::status(offer.basis).to_owned(),
        })
        .collect()
}

/// A button that sets a value for this case.
pub fn use_this(value: &str) -> String {
    format!("Use {value}")
}

/// The value in force, under a field.
pub fn in_force(value: &str) -> String {
    format!("In force: {value}")
}

/// The unit of a vial's figure.
pub fn vials_of(units: Units) -> String {
    format!("of {}", numbers::units_named(units))
}

/// Vials of one strength in the kit.
pub fn in_kit(units: Units, left: u32) -> String {
    format!("{} · {left} left", numbers::units(units))
}

/// The kit holds fewer than the preparation opens.
pub fn kit_short(needed: u32, units: Units, there: u32) -> String {
    let vials = numbers::count(needed, "vial", "vials");
    format!("Needs {vials} of {}, the kit has {there}.", numbers::units_named(units))
}

/// Vials that are missing, and how far those at hand go.
pub fn supply(supply: Supply, at_hand: u32) -> String {
    let there = numbers::count(at_hand, "vial", "vials");
    if supply.missing > 0 {
        format!(
            "{} missing: a round takes {}, {there} at hand.",
            numbers::count(supply.missing, "vial is", "vials are"),
            supply.needed
        )
    } else if at_hand == 1 {
        format!("{there} serves {} of this dose.", numbers::count(supply.rounds, "round", "rounds"))
    } else {
        format!("{there} serve {} of this dose.", numbers::count(supply.rounds, "round", "rounds"))
    }
}

/// Vials that the clinic means to have.
pub fn clinic_holds(vials: u32) -> String {
    format!("The clinic’s number is {vials}.")
}

/// The button that takes the plan.
pub fn make(strength: Strength) -> String {
    format!("Make {}", numbers::strength_named(strength))
}

/// The same, before it is known.
pub const MAKE: &str = "Make it";

/// A plan that makes less than the round takes.
pub fn part_of_it(plan: &Plan, wanted: Volume) -> String {
    format!(
        "This makes {} of the {} that the round takes. Get more vials meanwhile.",
        numbers::volume_named(plan.delivered().volume),
        numbers::volume_named(wanted)
    )
}

/// The syringe cannot measure one point.
pub fn no_mark(bolus: Volume) -> String {
    format!(
        "This syringe has no mark at {}, the volume at each point.",
        numbers::volume_named(bolus)
    )
}

/// The range for the filler typed.
pub fn per_filler(protocol: &Protocol) -> String {
    format!(
        "{} for each {}",
        numbers::units_range(protocol.filler_low, protocol.filler_high),
        numbers::volume_named(filler_dose::PER)
    )
}

/// How the reports are to be read.
pub fn reports_spread() -> String {
    format!(
        "For each {} of filler. The figures are far apart: gels differ, and so do the aims.",
        numbers::volume_named(filler_dose::PER)
    )
}

/// What each source used.
pub fn reports() -> Vec<Finding> {
    filler_dose::ALL
        .iter()
        .map(|report| Finding {
            figure: format!("{} units", numbers::units_range(report.low, report.high)),
            setting: report.setting.to_owned(),
            citation: super::protocol::citation(report.basis),
            status: super::protocol::status(report.basis).to_owned(),
        })
        .collect()
}

/// More filler than usual.
pub fn much_filler(volume: Volume, protocol: &Protocol) -> String {
    format!(
        "{} is more than {}. Is it so?",
        numbers::volume_named(volume),
        numbers::volume_named(protocol.filler_question)
    )
}

/// That an odd volume is not confirmed.
pub const CONFIRM_FILLER: &str = "Look at the volume again.";

/// How the deposits are laid.
pub fn deposits(bolus: Volume, last: Volume) -> String {
    if last == bolus {
        format!("of {}", numbers::volume_named(bolus))
    } else {
        format!("of {}, the last {}", numbers::volume_named(bolus), numbers::volume_named(last))
    }
}

pub const DILUENT: &str = "Diluent";
pub const WHY_DILUENT: &str = "Why this diluent";

/// A round runs, and its units are counted at one strength.
pub fn round_runs_at(strength: Strength) -> String {
    format!(
        "A round runs at {}. Make the same, or finish the round first.",
        numbers::strength_named(strength)
    )
}
