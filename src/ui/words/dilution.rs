//! Making a strength: ways, reasons, refusals, movements, how exact it is.

use super::{numbers, protocol};
use crate::care::dilution::{
    Ceiling, Expected, Impossible, Method, Movement, Plan, Reason, Spread, Syringe, Unfit, Wanted,
    Waste,
};
use crate::measure::{Strength, Units, Volume};
use crate::protocol::diluent::{ADRENALINE_MIXED, Diluent, WITH_ANAESTHETIC};
use crate::protocol::{barrel, potency};
use crate::ui::parts::Finding;

/// A diluent in a word, as an order names it.
pub fn diluent_short(diluent: Diluent) -> &'static str {
    match diluent {
        Diluent::Saline | Diluent::BacteriostaticSaline => "saline",
        Diluent::Water => "water",
        Diluent::Lidocaine => "lidocaine",
    }
}

/// A diluent in full.
pub fn diluent(diluent: Diluent) -> String {
    let name = match diluent {
        Diluent::Saline => "Plain saline",
        Diluent::BacteriostaticSaline => "Bacteriostatic saline",
        Diluent::Water => "Water for injections",
        Diluent::Lidocaine => "Lidocaine without adrenaline",
    };
    match diluent.strength() {
        Some(part) => format!("{name}, {}", numbers::per_mille(u64::from(part.0))),
        None => name.to_owned(),
    }
}

/// What to keep in mind with a diluent, and who says so.
pub fn diluent_caution(diluent: Diluent) -> Option<String> {
    match diluent {
        Diluent::Saline | Diluent::BacteriostaticSaline => None,
        Diluent::Water => {
            Some("Water alone stings, and thins the tissue (practice, no source).".into())
        }
        Diluent::Lidocaine => Some(format!(
            "Quicker, but shorter and with more systemic reactions ({}). Count its milligrams with any \
             other local anaesthetic. Never with adrenaline: a handbook calls its sulphite \
             incompatible, while it has been mixed according to another source ({}).",
            protocol::citation(WITH_ANAESTHETIC),
            protocol::citation(ADRENALINE_MIXED)
        )),
    }
}

words! {
    pub stock = "From the vial";
    pub mixed = "Mixed";
}

/// A way in a few words.
pub fn method(method: &Method) -> String {
    match method {
        Method::WholeVial { diluent } => {
            format!("Dissolve in {}, draw as it is", numbers::volume_named(*diluent))
        }
        Method::StockThenDilute { stock, step } => format!(
            "Dissolve in {}, then {} of it made up to {}",
            numbers::volume_named(*stock),
            numbers::volume_named(step.from),
            numbers::volume_named(step.to)
        ),
        Method::Stepwise { stock, steps } => {
            let times = u32::try_from(steps.len()).unwrap_or(u32::MAX);
            format!(
                "Dissolve in {}, then dilute {}",
                numbers::volume_named(*stock),
                numbers::count(times, "time", "times")
            )
        }
    }
}

/// What speaks for a way.
pub fn reason(reason: Reason) -> &'static str {
    match reason {
        Reason::OnlyWay => "the only way",
        Reason::ExactStrength => "exact strength",
        Reason::CloserStrength => "closer to the strength",
        Reason::FewerMovements => "fewer movements",
        Reason::LessWaste => "less waste",
        Reason::RounderMarks => "rounder marks",
        Reason::NarrowerInterval => "strength known more narrowly",
        Reason::Alike => "as good as the next",
    }
}

/// Why a way stands before the next: "Fewer movements, less waste."
pub fn reasons(plan: &Plan) -> Option<String> {
    let all: Vec<&str> = plan.reasons().iter().map(|found| reason(*found)).collect();
    (!all.is_empty()).then(|| capital(&all.join(", ")))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// How many movements of the plunger.
pub fn movements(plan: &Plan) -> String {
    let moved = plan.movements().iter().filter(|movement| !is_finish(**movement)).count();
    numbers::count(u32::try_from(moved).unwrap_or(u32::MAX), "movement", "movements")
}

/// Whether a movement only sets the syringe aside.
pub const fn is_finish(movement: Movement) -> bool {
    matches!(movement, Movement::Finish { .. })
}

/// What goes unused, by where it is.
pub fn waste(waste: Waste) -> String {
    let total = waste.total();
    if total.is_zero() {
        return "nothing unused".into();
    }
    format!("{} unused", numbers::units_named(total))
}

/// How near a plan comes to the strength asked for; `None` if it is exact.
pub fn deviation(plan: &Plan) -> Option<String> {
    (!plan.is_exact()).then(|| {
        let way = if plan.deviation() < 0 { "below" } else { "above" };
        format!(
            "{}, {} {way} {}",
            numbers::strength_named(plan.strength()),
            numbers::per_mille(plan.deviation().unsigned_abs()),
            numbers::strength_named(plan.ask().target)
        )
    })
}

/// A plan's figures in one line: exactness, movements, waste, expected interval.
pub fn figures(plan: &Plan) -> String {
    let exact = deviation(plan)
        .unwrap_or_else(|| format!("Exactly {}", numbers::strength_named(plan.strength())));
    format!(
        "{exact}. {}, {}, expected {}.",
        movements(plan),
        waste(plan.waste()),
        spread(plan.expected().both)
    )
}

/// An interval of strength: "413 to 605 units/mL".
pub fn spread(spread: Spread) -> String {
    format!("{} to {}", numbers::strength(spread.low), numbers::strength_named(spread.high))
}

/// The same, of a plan that is being carried out.
pub fn when_ready(plan: &Plan) -> String {
    format!(
        "When ready {}; expected between {}.",
        numbers::strength_named(plan.strength()),
        spread(plan.expected().both).replacen(" to ", " and ", 1)
    )
}

/// The expected interval, cause by cause.
pub fn causes(expected: &Expected, target: Strength) -> Vec<Finding> {
    let (low, high) = potency::BAND;
    let finding = |figure: String, setting: String, basis| Finding {
        figure,
        setting,
        citation: protocol::citation(basis),
        status: protocol::status(basis).to_owned(),
    };
    let mut causes = vec![
        finding(
            spread(expected.syringe),
            "If every draw errs as far as a syringe may, each to the worse side".into(),
            barrel::BASIS,
        ),
        finding(
            spread(expected.vial),
            format!(
                "If the vial holds {} to {} of its label",
                numbers::per_mille(u64::from(low.0)),
                numbers::per_mille(u64::from(high.0))
            ),
            potency::BAND_BASIS,
        ),
    ];
    if expected.nozzle > target {
        causes.push(finding(
            numbers::strength_named(expected.nozzle),
            "If the nozzle was full when diluent was drawn on top. Not counted above: a syringe \
             without dead space has none of it"
                .into(),
            barrel::BASIS,
        ));
    }
    causes
}

words! {
    pub expected = "Expected";
    pub why_expected = "Why a range";
}

/// Why an ask cannot be met, with the nearest.
pub fn impossible(impossible: Impossible) -> String {
    match impossible {
        Impossible::NothingWanted => "No dose is wanted yet.".into(),
        Impossible::NoVials => "Without a vial nothing can be made.".into(),
        Impossible::NoStrength => "Choose a strength.".into(),
        Impossible::VialUnits { low, high } => format!(
            "A vial holds between {} and {}.",
            numbers::units_named(low),
            numbers::units_named(high)
        ),
        Impossible::VialTooSmall { least } => format!(
            "The vial is too small: this syringe measures no less than {} well.",
            numbers::volume_named(least)
        ),
        Impossible::TooStrong { strongest, ceiling: Ceiling::LeastDiluent(least) } => format!(
            "Too strong for this vial: in {}, the least that this syringe measures well, it gives {}.",
            numbers::volume_named(least),
            numbers::strength_named(strongest)
        ),
        Impossible::TooStrong { strongest, ceiling: Ceiling::NoneStrongerKnown } => {
            format!(
                "Nothing stronger than {} is known to be used.",
                numbers::strength_named(strongest)
            )
        }
        Impossible::TooWeak { weakest } => format!(
            "Too weak for this syringe: it measures nothing weaker than {} well.",
            numbers::strength_named(weakest)
        ),
        Impossible::OffMarks { nearest } => format!(
            "The marks of this syringe do not give that strength. The nearest is {}.",
            numbers::strength_named(nearest)
        ),
        Impossible::VialsRunOut { vials, possible } => format!(
            "{} {} at most.",
            numbers::count(vials, "vial gives", "vials give"),
            wanted(possible)
        ),
        Impossible::TooManySyringes { most, possible } => format!(
            "More than {}: take a larger one. So many hold {}.",
            numbers::count(most, "syringe", "syringes"),
            wanted(possible)
        ),
    }
}

/// What is to be ready.
pub fn wanted(wanted: Wanted) -> String {
    match wanted {
        Wanted::Dose(units) => numbers::units_named(units),
        Wanted::Volume(volume) => numbers::volume_named(volume),
    }
}

/// A button that takes what is possible instead.
pub fn make_instead(possible: Wanted) -> String {
    format!("Make {}", wanted(possible))
}

/// A button that takes another strength.
pub fn take_strength(strength: Strength) -> String {
    format!("Take {}", numbers::strength_named(strength))
}

/// A syringe by its size and marks.
pub fn syringe(syringe: Syringe) -> String {
    format!("{} mL, marked every {} mL", syringe.capacity(), numbers::volume(syringe.interval()))
}

/// Why no syringe is like that.
pub fn unfit(unfit: Unfit) -> String {
    match unfit {
        Unfit::NoMarks => "Type the distance of its marks.".into(),
        Unfit::TooSmall { least } => {
            format!("No syringe is smaller than {}.", numbers::volume_named(least))
        }
        Unfit::TooLarge { below } => {
            format!("Only syringes below {} can be counted with.", numbers::volume_named(below))
        }
        Unfit::CapacityOffMarks => "Its size is not a whole number of its marks.".into(),
        Unfit::MarksTooWide { widest } => format!(
            "Marks lie no wider than {} on a syringe of that size.",
            numbers::volume_named(widest)
        ),
        Unfit::TooManyMarks { most } => format!("No eye tells more than {most} marks apart."),
    }
}

/// A diluent as a layer's name.
pub fn diluent_named(diluent: Diluent) -> String {
    let short = diluent_short(diluent);
    short[..1].to_uppercase() + &short[1..]
}

/// The order of a movement, without its figure.
pub fn order(movement: Movement, vials: u32, diluent: Diluent) -> String {
    let diluent = diluent_short(diluent);
    let vial =
        |number: u32| if vials > 1 { format!("vial {number}") } else { "the vial".to_owned() };
    match movement {
        Movement::DrawDiluent { .. } => format!("Draw {diluent} to"),
        Movement::Dissolve { vial: number } => format!("Push all of it into {}", vial(number)),
        Movement::DrawFromVial { vial: number, .. } => format!("Draw from {} to", vial(number)),
        Movement::MakeUp { .. } => format!("Draw {diluent} on top, to"),
        Movement::Expel { .. } => "Push out, down to".into(),
        Movement::Finish { syringe } => format!("Syringe {syringe} is ready"),
    }
}

/// What else to do with the movement.
pub fn with_it(movement: Movement, diluent: Diluent) -> Option<String> {
    let words = match movement {
        Movement::DrawDiluent { .. } => return Some(self::diluent(diluent)),
        Movement::Dissolve { .. } => Some("Swirl until no powder is left."),
        Movement::DrawFromVial { .. } => Some("Air out first, then read the mark."),
        Movement::MakeUp { .. } => Some("Then mix: a little air in, tip it, air out."),
        Movement::Expel { .. } => Some("Into a swab, not into the vial."),
        Movement::Finish { .. } => None,
    };
    words.map(str::to_owned)
}

/// That a movement is made: the words on the button.
pub fn made(movement: Movement) -> String {
    let to = |word: &str| {
        let mark = movement.mark().unwrap_or(Volume::ZERO);
        format!("{word}, {}", numbers::volume_named(mark))
    };
    match movement {
        Movement::DrawDiluent { .. } | Movement::DrawFromVial { .. } => to("Drawn"),
        Movement::MakeUp { .. } => to("Mixed"),
        Movement::Expel { .. } => to("Pushed out"),
        Movement::Dissolve { .. } => "Dissolved".into(),
        Movement::Finish { .. } => "Labelled, put aside".into(),
    }
}

/// A movement in one line, as a record says it.
pub fn movement(movement: Movement, vials: u32, diluent: Diluent) -> String {
    match movement.mark() {
        Some(mark) => {
            format!("{} {}", order(movement, vials, diluent), numbers::volume_named(mark))
        }
        None => order(movement, vials, diluent),
    }
}

/// What may stay in the nozzle, where it does harm: when diluent is drawn on top.
pub fn nozzle(dead_space: Volume, units: Units) -> String {
    format!(
        "The nozzle adds what it holds: up to {}, that is {}. Use a syringe with little dead space.",
        numbers::volume_named(dead_space),
        numbers::units_named(units)
    )
}
