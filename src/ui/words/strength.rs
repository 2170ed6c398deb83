//! Step 3: the skin or the filler, the dose, the strength, what there is.

use super::numbers;
use crate::care::dilution::Plan;
use crate::care::dose::{Supply, Urgent};
use crate::care::territory::Refused;
use crate::measure::{Area, Length, Strength, Units, Volume};
use crate::protocol::strengths::Offer;
use crate::protocol::{Protocol, filler_dose};
use crate::ui::language::spoken;
use crate::ui::parts::Finding;

words! {
    pub zones = "Where is the skin without blood?";
    pub zone_wanted = "Choose where, or type its size.";
    pub size = "Its size";
    pub usual = "Usual";
    pub typed = "cm²";
    pub which_zones = "Zones";
    pub drawn_label = "Drawn";
    pub draw = "Draw round it";
    pub redraw = "Draw it anew";
    pub lattice = "How the points lie";
    pub reach = "Farthest skin from a point";
    pub rectangle = "Length × width";
    pub area = "Skin without blood";
    pub cm2 = "cm²";
    pub length = "Length";
    pub width = "Width";
    pub mm = "mm";
    pub size_wanted = "Type the size.";
    pub why_usual = "What the usual sizes are";
    pub usual_is_a_start = "One side each, and only a start: the skin in front of you decides. Measure it when there is time.";
    pub why = "What the sources say";
    pub sure = "It is so";

    pub by_grid = "This round";
    pub by_areas = "By facial area";
    pub by_published = "As published, per cm²";
    pub points = "Points";
    pub volume = "Volume";
    pub units = "units";
    pub units_per_ml = "units/mL";
    pub ml = "mL";
    pub disagree_label = "The routes disagree";
    pub more_is_not_better = "More is not always better";
    pub evidence = "What was found with fewer and with more units in a round. No ceiling is published.";
    pub into_range = "Each of these alone brings it into the range:";
    pub grid_label = "Change the grid";

    pub strength = "Strength, units/mL";
    pub other_strength = "Another strength";
    pub why_strength = "Why this strength";

    pub in_kit_label = "Vials in the kit, units in one";
    pub vials_at_hand = "Vials at hand";
    pub vials_untold = "Not counted";
    pub vials_told = "Counted";
    pub how_many = "How many";
    pub one_less = "One vial less";
    pub one_more = "One vial more";
    pub vials_needed = "Vials it takes";
    pub syringes = "Syringes";

    pub other_things = "Not what I have";
    pub vial = "Units in one vial";
    pub powder = "A vial of powder. One that comes as a ready solution is not counted right here.";
    pub other_vial = "Another vial";
    pub why_vials = "What the labels say";
    pub syringe = "Syringe";
    pub other_syringe = "Another syringe";
    pub holds = "Holds";
    pub marks = "One mark is";
    pub use_syringe = "Use this syringe";
    pub cannot = "This cannot be made";

    pub ways = "Other ways";
    pub way = "How to make it";

    pub filler = "How much filler is to go?";
    pub filler_volume = "Filler";
    pub filler_hint = "As noted when it was injected, or estimated.";
    pub filler_wanted = "Type the volume of filler.";
    pub range = "Dose";
    pub dose = "Which dose?";
    pub low = "Low";
    pub middle = "Middle";
    pub high = "High";
    pub other = "Other";
    pub dose_typed = "Your dose";
    pub dose_wanted = "Choose a dose.";
    pub reports_label = "What the sources used";
    pub deposits_label = "Deposits";
    pub smaller = "Other deposits";

    pub not_yet = "Not yet";
    pub not_yet_why = "The steps before this one are not done. Nothing is made before they are.";
    pub to_them = "To the step before";
}

/// The line above the question: which round it is for.
pub fn round(number: usize, given: Units) -> String {
    if given.is_zero() {
        tr!("Round {number}", number)
    } else {
        tr!("Round {number} · {given} so far", number, given = numbers::units_named(given))
    }
}

/// Why a territory is none.
pub fn refused(refused: Refused) -> String {
    match refused {
        Refused::Empty => zone_wanted().into(),
        Refused::LargerThanFace { given, most } => tr!(
            "{given} is more than a whole face, {most} at most.",
            given = numbers::area_named(given),
            most = numbers::area_named(most)
        ),
    }
}

/// Asks again about a large territory.
pub fn large(area: Area, protocol: &Protocol) -> String {
    tr!(
        "{area} is a large territory: more than {limit}. Is it so?",
        area = numbers::area_named(area),
        limit = numbers::area_named(protocol.area_question)
    )
}

words! {
    /// That a questioned size is not confirmed.
    pub confirm_size = "Look at the size again.";
}

/// What was drawn, in words.
pub fn drawn(area: Area, points: usize) -> String {
    tr!("{area} drawn, {points} points of the grid", area = numbers::area_named(area), points)
}

/// The grid in one line.
pub fn grid(area: Area, spacing: Length, bolus: Volume) -> String {
    tr!(
        "{area} · {spacing} apart · {bolus} each",
        area = numbers::area_named(area),
        spacing = numbers::length_named(spacing),
        bolus = numbers::volume_named(bolus)
    )
}

/// How the routes differ.
pub fn disagree(dose: &Urgent) -> String {
    tr!(
        "The grid gives {by_grid}, the facial areas {by_areas}. The grid is what is injected.",
        by_grid = numbers::units_named(dose.by_grid),
        by_areas = dose.by_areas.map_or_else(String::new, numbers::units_named)
    )
}

/// A published figure for each cm².
pub fn per_area(protocol: &Protocol) -> String {
    tr!("{units} on each cm², to be confirmed", units = numbers::units(protocol.per_area))
}

/// A figure for each facial area.
pub fn per_facial_area(protocol: &Protocol) -> String {
    tr!("{units} for each", units = numbers::units(protocol.area_units))
}

/// What speaks against a dose.
pub fn outside(standing: &str, units: Units) -> String {
    format!("{}. {standing}.", numbers::units_named(units))
}

/// What speaks against a planned dose.
pub fn outside_range(dose: Units, low: Units, high: Units) -> String {
    tr!(
        "{dose} is outside the range in force, {range} units.",
        dose = numbers::units_named(dose),
        range = numbers::units_range(low, high)
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
            setting: spoken(offer.setting).to_owned(),
            citation: super::protocol::citation(offer.basis),
            status: super::protocol::status(offer.basis).to_owned(),
        })
        .collect()
}

/// A button that sets a value for this case.
pub fn use_this(value: &str) -> String {
    tr!("Use {value}", value)
}

/// The value in force, under a field.
pub fn in_force(value: &str) -> String {
    tr!("In force: {value}", value)
}

/// What each of several holds.
fn each_of(amount: &str) -> String {
    tr!("each holds so much" => "of {amount}", amount)
}

/// The unit of a vial's figure.
pub fn vials_of(units: Units) -> String {
    each_of(&numbers::units_named(units))
}

/// Vials of one strength in the kit.
pub fn in_kit(units: Units, left: u32) -> String {
    tr!("{units} · {left} left", units = numbers::units(units), left)
}

/// The kit holds fewer than the preparation opens.
pub fn kit_short(needed: u32, units: Units, there: u32) -> String {
    tr!(
        "Needs {count} vial of {units}, the kit has {there}."
            | "Needs {count} vials of {units}, the kit has {there}." % needed,
        count = numbers::whole(needed),
        units = numbers::units_named(units),
        there
    )
}

/// Vials that are missing, and how far those at hand go.
pub fn supply(supply: Supply, at_hand: u32) -> String {
    let there = numbers::vials(at_hand);
    if supply.missing > 0 {
        tr!(
            "{count} vial is missing: a round takes {needed}, {there} at hand."
                | "{count} vials are missing: a round takes {needed}, {there} at hand."
                    % supply.missing,
            count = numbers::whole(supply.missing),
            needed = supply.needed,
            there
        )
    } else {
        let served = tr!(
            "{count} round" | "{count} rounds" % supply.rounds,
            count = numbers::whole(supply.rounds)
        );
        tr!(
            "{there} serves {served} of this dose."
                | "{there} serve {served} of this dose." % at_hand,
            there,
            served
        )
    }
}

/// Vials that the clinic means to have.
pub fn clinic_holds(vials: u32) -> String {
    tr!("The clinic’s number is {vials}.", vials)
}

/// The button that takes the plan.
pub fn make(strength: Strength) -> String {
    tr!("Make {strength}", strength = numbers::strength_named(strength))
}

words! {
    /// The same, before it is known.
    pub make_label = "Make it";
}

/// A plan that makes less than the round takes.
pub fn part_of_it(plan: &Plan, wanted: Volume) -> String {
    tr!(
        "This makes {made} of the {wanted} that the round takes. Get more vials meanwhile.",
        made = numbers::volume_named(plan.delivered().volume),
        wanted = numbers::volume_named(wanted)
    )
}

/// The syringe cannot measure one point.
pub fn no_mark(bolus: Volume) -> String {
    tr!(
        "This syringe has no mark at {volume}, the volume at each point.",
        volume = numbers::volume_named(bolus)
    )
}

/// The range for the filler typed.
pub fn per_filler(protocol: &Protocol) -> String {
    tr!(
        "{units} for each {volume}",
        units = numbers::units_range(protocol.filler_low, protocol.filler_high),
        volume = numbers::volume_named(filler_dose::PER)
    )
}

/// How the reports are to be read.
pub fn reports_spread() -> String {
    tr!(
        "For each {volume} of filler. The figures are far apart: gels differ, and so do the aims.",
        volume = numbers::volume_named(filler_dose::PER)
    )
}

/// What each source used.
pub fn reports() -> Vec<Finding> {
    filler_dose::ALL
        .iter()
        .map(|report| Finding {
            figure: tr!("{amount} units", amount = numbers::units_range(report.low, report.high)),
            setting: spoken(report.setting).to_owned(),
            citation: super::protocol::citation(report.basis),
            status: super::protocol::status(report.basis).to_owned(),
        })
        .collect()
}

/// More filler than usual.
pub fn much_filler(volume: Volume, protocol: &Protocol) -> String {
    tr!(
        "{volume} is more than {limit}. Is it so?",
        volume = numbers::volume_named(volume),
        limit = numbers::volume_named(protocol.filler_question)
    )
}

words! {
    /// That an odd volume is not confirmed.
    pub confirm_filler = "Look at the volume again.";
}

/// How the deposits are laid.
pub fn deposits(bolus: Volume, last: Volume) -> String {
    let bolus_named = numbers::volume_named(bolus);
    if last == bolus {
        each_of(&bolus_named)
    } else {
        tr!(
            "of {amount}, the last {last}",
            amount = bolus_named,
            last = numbers::volume_named(last)
        )
    }
}

words! {
    pub diluent = "Diluent";
    pub why_diluent = "Why this diluent";
}

/// A round runs, and its units are counted at one strength.
pub fn round_runs_at(strength: Strength) -> String {
    tr!(
        "A round runs at {strength}. Make the same, or finish the round first.",
        strength = numbers::strength_named(strength)
    )
}
