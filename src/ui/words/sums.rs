//! Quick sums: the same calculations without a case.

use super::{numbers, protocol, time, typed};
use crate::care::dilution::Plan;
use crate::care::dose::{Planned, Supply, Urgent};
use crate::measure::{Area, Strength, Units, Volume};
use crate::protocol::{Quantity, filler_dose, potency, zone::Zone};
use crate::ui::language::spoken;
use crate::ui::parts::Finding;

words! {
    pub title = "Quick sums";
    pub no_case = "Nothing is recorded here";
    pub which = "Which sum";
    pub strength = "Strength";
    pub planned = "Planned dose";
    pub area = "Dose by area";

    pub way = "What is known";
    pub made = "Vial and diluent";
    pub wanted = "Strength wanted";
    pub vial = "Units in one vial";
    pub vials = "Vials together";
    pub one_less = "One vial less";
    pub one_more = "One vial more";
    pub diluent = "Diluent, all together";
    pub target = "Strength wanted";
    pub dose = "Dose wanted";
    pub syringe = "Syringe in the hand";
    pub this_syringe = "Take this syringe";
    pub other_syringe = "Another syringe";
    pub capacity = "It holds";
    pub marks = "A mark every";
    pub units = "units";
    pub ml = "mL";
    pub per_ml = "units/mL";
    pub cm2 = "cm²";
    pub mm = "mm";

    pub type_diluent = "Type the diluent: the strength follows.";
    pub type_dose = "Type the dose: the way to make it follows.";
    pub type_filler = "Type the filler: the dose follows.";
    pub type_area = "Name the areas or give the size: the dose follows.";
    pub mend = "Put right what is marked above: the result follows.";

    pub result = "Result";
    pub in_all = "In all";
    pub expected_vial = "Expected, by the vial alone";
    pub why_expected = "Why a range";
    pub delivers = "Ready to inject";
    pub vials_opened = "Vials opened";
    pub syringes_label = "Syringes";
    pub unused = "Unused";
    pub movements = "How to make it";
    pub others = "Other ways";
    pub show_way = "Best way";
    pub check = "A second person checks each draw and the label. Use it at once: dissolved enzyme fades.";

    pub filler = "Filler to take away";
    pub deposit = "Each deposit";
    pub deposit_hint = "Or smaller: several small deposits reach more of the filler.";
    pub dose_range = "Dose";
    pub volume = "Volume";
    pub deposits = "Deposits";
    pub filler_sources = "What sources use for this much filler";
    pub planned_first = "Planned work: ask about allergy and do a skin test first. Nothing is lost by waiting.";

    pub zones = "Facial areas";
    pub size = "Size";
    pub usual = "Usual size";
    pub typed = "In cm²";
    pub rectangle = "Two sides";
    pub surface = "Skin without blood";
    pub length = "Longest side";
    pub width = "Across it";
    pub spacing = "Between points";
    pub by_grid = "By grid, a round";
    pub by_areas = "By facial areas";
    pub by_published = "By the published cm²";
    pub points = "Points";
    pub surface_is = "Surface";
    pub vials_needed = "Vials, a round";
    pub remedies = "What would bring it into the range";
    pub why_area = "Why these numbers";
    pub usual_hint = "A usual size is a start, not a measurement: look how far the skin has really changed.";
    pub emergency = "Sight changed, pain in the eye, or signs of a stroke: call emergency services first.";
    pub repeat = "Repeat until refill, colour and pain are back.";
}

/// What this much diluent makes, in a volume: "In 0.10 mL".
pub fn in_volume(volume: Volume) -> String {
    tr!("In {volume}", volume = numbers::volume_named(volume))
}

/// A strength that the figure rounds.
pub fn exactly(strength: Strength) -> Option<String> {
    let exact = numbers::typed(&strength);
    let shown = numbers::strength(strength).replace('\u{202f}', "");
    (exact != shown).then(|| tr!("To three decimals {exact}", exact))
}

/// From a weaker to a stronger.
pub fn strengths(low: Strength, high: Strength) -> String {
    tr!("{low} to {high}", low = numbers::strength(low), high = numbers::strength(high))
}

/// Where the expected range comes from.
pub fn band() -> Finding {
    let (low, high) = potency::BAND;
    let part = |part: crate::protocol::PerMille| numbers::per_mille(u64::from(part.0));
    Finding {
        figure: tr!("{low} to {high}", low = part(low), high = part(high)),
        setting: tr!("Of the units on its label a vial may hold so much. Syringes add to it"),
        citation: protocol::citation(potency::BAND_BASIS),
        status: protocol::status(potency::BAND_BASIS).to_owned(),
    }
}

/// The volume of diluent that may have been meant.
pub fn slipped_diluent(meant: Volume, strength: Strength) -> String {
    format!(
        "{} {}",
        typed::slip(Quantity::Volume(meant)),
        tr!(
            "With it the strength would be {strength}.",
            strength = numbers::strength_named(strength)
        )
    )
}

/// More diluent than the vials hold.
pub fn too_full(holds: Volume, vials: u32) -> String {
    tr!(
        "More than {count} vial of this clinic’s hold at {volume} each. Dissolve in less and make up \
         the rest in the syringe."
            | "More than {count} vials of this clinic’s hold at {volume} each. Dissolve in less and \
               make up the rest in the syringe."
                % vials,
        count = numbers::whole(vials),
        volume = numbers::volume_named(holds)
    )
}

/// Stronger than is known.
pub fn too_strong(known: Strength) -> String {
    tr!(
        "Nothing stronger than {strength} is known to be used.",
        strength = numbers::strength_named(known)
    )
}

/// The vial that the planner counts with.
pub fn vial_holds(holds: Volume) -> String {
    tr!(
        "Counted with vials that hold {volume}, as in the clinic’s values.",
        volume = numbers::volume_named(holds)
    )
}

/// How near the strength comes.
pub fn nearness(plan: &Plan) -> String {
    super::dilution::deviation(plan).unwrap_or_else(|| tr!("Exactly as asked"))
}

/// The volumes of a dose from its low to its high end.
pub fn volumes(low: Volume, high: Volume) -> String {
    if low == high {
        numbers::volume(low)
    } else {
        tr!("{low} to {high}", low = numbers::volume(low), high = numbers::volume(high))
    }
}

/// How many deposits, from the low to the high end.
pub fn counts(low: u32, high: u32) -> String {
    if low == high { low.to_string() } else { tr!("{low} to {high}", low, high) }
}

/// How the dose is counted.
pub fn per_filler(low: Units, high: Units, per: Volume) -> String {
    tr!(
        "{amount} units for each {volume} of filler, as in the clinic’s values",
        amount = numbers::units_range(low, high),
        volume = numbers::volume_named(per)
    )
}

/// More filler than usual.
pub fn much_filler(question: Volume) -> String {
    tr!(
        "More than {volume} of filler. Is the decimal sign where it belongs?",
        volume = numbers::volume_named(question)
    )
}

/// What each source used, worked out for the filler typed.
pub fn filler_reports(filler: Volume, per: Volume) -> Vec<Finding> {
    let scaled = |units: Units| {
        Units::milli(units.raw().saturating_mul(filler.raw()).checked_div(per.raw()).unwrap_or(0))
    };
    filler_dose::ALL
        .iter()
        .map(|report| Finding {
            // As the source has it: nothing of a quoted figure is rounded away.
            figure: tr!(
                "{amount} units ({low} to {high} for {volume})",
                amount = numbers::units_range(scaled(report.low), scaled(report.high)),
                low = numbers::typed(&report.low),
                high = numbers::typed(&report.high),
                volume = numbers::volume_named(per)
            ),
            setting: spoken(report.setting).to_owned(),
            citation: protocol::citation(report.basis),
            status: protocol::status(report.basis).to_owned(),
        })
        .collect()
}

/// How large each deposit is.
pub fn deposit_words(planned: &Planned) -> String {
    tr!("{volume} each", volume = numbers::volume_named(planned.deposit))
}

/// Larger than usual.
pub fn large_area(question: Area) -> String {
    tr!(
        "More than {area}. Is the decimal sign where it belongs?",
        area = numbers::area_named(question)
    )
}

/// Larger than a face.
pub fn larger_than_face(most: Area) -> String {
    tr!("No face has more than {area}.", area = numbers::area_named(most))
}

/// The two routes differ.
pub fn disagree(dose: &Urgent) -> Option<String> {
    let areas = dose.by_areas.filter(|_| dose.disagree)?;
    Some(tr!(
        "The two routes disagree: {grid} by grid, {areas} by facial areas. Neither is proven; look at \
         the skin and decide.",
        grid = numbers::units_named(dose.by_grid),
        areas = numbers::units_named(areas)
    ))
}

/// How the published figure per cm² was read.
pub fn as_published(per_cm2: Units) -> String {
    tr!("{units} on each cm², to be confirmed", units = numbers::units_named(per_cm2))
}

/// Vials that the clinic means to hold, against the round.
pub fn supply(supply: Supply, at_hand: u32) -> String {
    let held = numbers::vials(at_hand);
    match supply.missing {
        0 => tr!(
            "{vials} to be at hand serve {count} round"
                | "{vials} to be at hand serve {count} rounds" % supply.rounds,
            vials = held,
            count = numbers::whole(supply.rounds)
        ),
        missing => tr!("{vials} to be at hand: {missing} more needed", vials = held, missing),
    }
}

/// The usual size of a zone, beside its name.
pub fn zone(zone: Zone) -> String {
    format!("{} {}", super::situation::zone(zone), numbers::area_named(zone.usual().0))
}

/// When to look again.
pub fn look_again(interval: crate::measure::Span) -> String {
    let again = tr!("Look again {span} after the last injection.", span = time::span(interval));
    format!("{again} {}", repeat())
}

/// How many facial areas were counted; tip and wings of the nose are one.
pub fn areas(count: u32) -> String {
    tr!("{count} facial area" | "{count} facial areas" % count, count = numbers::whole(count))
}

/// What goes in at each point.
pub fn each(bolus: Volume, units: Units) -> String {
    tr!(
        "{volume} each, {units}",
        volume = numbers::volume_named(bolus),
        units = numbers::units_named(units)
    )
}

/// Syringes that a volume fills.
pub fn syringes(count: u64) -> String {
    tr!("{count} syringe" | "{count} syringes" % count, count = numbers::whole(count))
}

words! {
    pub type_syringe = "Type its size and its marks.";
}

/// How far the sources lie apart.
pub fn filler_spread() -> String {
    let low = filler_dose::ALL.iter().map(|report| report.low).min();
    let high = filler_dose::ALL.iter().map(|report| report.high).max();
    let factor = high.zip(low).map_or(0, |(high, low)| high.fits(low));
    tr!(
        "Sources span a factor of {factor}: gels differ, and so do the aims. Start low, wait, look, \
         repeat.",
        factor
    )
}

/// The number of a movement, as wide as any other.
pub fn place(number: usize) -> String {
    format!("{number:>2}").replace(' ', "\u{2007}")
}

/// What each source says of several values, each with the value's name.
pub fn findings(ids: &[crate::protocol::Id]) -> Vec<Finding> {
    let named = |id: &crate::protocol::Id| {
        let name = protocol::value(*id);
        let mut findings = protocol::findings(*id);
        for finding in &mut findings {
            finding.setting = format!("{name}: {}", finding.setting);
        }
        findings
    };
    ids.iter().flat_map(named).collect()
}
