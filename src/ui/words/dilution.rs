//! Making a strength: ways, reasons, refusals, movements, how exact it is.

use super::{numbers, protocol};
use crate::care::dilution::{
    Ceiling, Expected, Impossible, Method, Movement, Plan, Reason, Spread, Syringe, Unfit, Wanted,
    Waste,
};
use crate::measure::{Strength, Units, Volume};
use crate::protocol::diluent::{ADRENALINE_MIXED, Diluent, WITH_ANAESTHETIC};
use crate::protocol::{barrel, potency};
use crate::ui::language::{spoken, spoken_as};
use crate::ui::parts::Finding;

/// A diluent in a word, as an order names it.
pub fn diluent_short(diluent: Diluent) -> &'static str {
    spoken(match diluent {
        Diluent::Saline | Diluent::BacteriostaticSaline => "saline",
        Diluent::Water => "water",
        Diluent::Lidocaine => "lidocaine",
    })
}

/// A diluent in full.
pub fn diluent(diluent: Diluent) -> String {
    let name = spoken(match diluent {
        Diluent::Saline => "Plain saline",
        Diluent::BacteriostaticSaline => "Bacteriostatic saline",
        Diluent::Water => "Water for injections",
        Diluent::Lidocaine => "Lidocaine without adrenaline",
    });
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
            Some(tr!("Water alone stings, and thins the tissue (practice, no source)."))
        }
        Diluent::Lidocaine => Some(tr!(
            "Quicker, but shorter and with more systemic reactions ({source}). Count its milligrams with any \
             other local anaesthetic. Never with adrenaline: a handbook calls its sulphite \
             incompatible, while it has been mixed according to another source ({other}).",
            source = protocol::citation(WITH_ANAESTHETIC),
            other = protocol::citation(ADRENALINE_MIXED)
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
            tr!("Dissolve in {volume}, draw as it is", volume = numbers::volume_named(*diluent))
        }
        Method::StockThenDilute { stock, step } => tr!(
            "Dissolve in {volume}, then {part} of it made up to {whole}",
            volume = numbers::volume_named(*stock),
            part = numbers::volume_named(step.from),
            whole = numbers::volume_named(step.to)
        ),
        Method::Stepwise { stock, steps } => tr!(
            "Dissolve in {volume}, then dilute {count} time"
                | "Dissolve in {volume}, then dilute {count} times" % steps.len(),
            volume = numbers::volume_named(*stock),
            count = numbers::whole(steps.len())
        ),
    }
}

/// What speaks for a way.
pub fn reason(reason: Reason) -> &'static str {
    spoken(match reason {
        Reason::OnlyWay => "the only way",
        Reason::ExactStrength => "exact strength",
        Reason::CloserStrength => "closer to the strength",
        Reason::FewerMovements => "fewer movements",
        Reason::LessWaste => "less waste",
        Reason::RounderMarks => "rounder marks",
        Reason::NarrowerInterval => "strength known more narrowly",
        Reason::Alike => "as good as the next",
    })
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
    tr!("{count} movement" | "{count} movements" % moved, count = numbers::whole(moved))
}

/// Whether a movement only sets the syringe aside.
pub const fn is_finish(movement: Movement) -> bool {
    matches!(movement, Movement::Finish { .. })
}

/// What goes unused, by where it is.
pub fn waste(waste: Waste) -> String {
    let total = waste.total();
    if total.is_zero() {
        return tr!("nothing unused");
    }
    tr!("{amount} unused", amount = numbers::units_named(total))
}

/// How near a plan comes to the strength asked for; `None` if it is exact.
pub fn deviation(plan: &Plan) -> Option<String> {
    (!plan.is_exact()).then(|| {
        let strength = numbers::strength_named(plan.strength());
        let part = numbers::per_mille(plan.deviation().unsigned_abs());
        let target = numbers::strength_named(plan.ask().target);
        if plan.deviation() < 0 {
            tr!("{strength}, {part} below {target}", strength, part, target)
        } else {
            tr!("{strength}, {part} above {target}", strength, part, target)
        }
    })
}

/// A plan's figures in one line: exactness, movements, waste, expected interval.
pub fn figures(plan: &Plan) -> String {
    let exact = deviation(plan).unwrap_or_else(|| {
        tr!("Exactly {strength}", strength = numbers::strength_named(plan.strength()))
    });
    tr!(
        "{exact}. {movements}, {waste}, expected {interval}.",
        exact,
        movements = movements(plan),
        waste = waste(plan.waste()),
        interval = spread(plan.expected().both)
    )
}

/// An interval of strength: "413 to 605 units/mL".
pub fn spread(spread: Spread) -> String {
    tr!(
        "{low} to {high}",
        low = numbers::strength(spread.low),
        high = numbers::strength_named(spread.high)
    )
}

/// The same, of a plan that is being carried out.
pub fn when_ready(plan: &Plan) -> String {
    let Spread { low, high } = plan.expected().both;
    tr!(
        "When ready {strength}; expected between {low} and {high}.",
        strength = numbers::strength_named(plan.strength()),
        low = numbers::strength(low),
        high = numbers::strength_named(high)
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
            tr!("If every draw errs as far as a syringe may, each to the worse side"),
            barrel::BASIS,
        ),
        finding(
            spread(expected.vial),
            tr!(
                "If the vial holds {low} to {high} of its label",
                low = numbers::per_mille(u64::from(low.0)),
                high = numbers::per_mille(u64::from(high.0))
            ),
            potency::BAND_BASIS,
        ),
    ];
    if expected.nozzle > target {
        causes.push(finding(
            numbers::strength_named(expected.nozzle),
            tr!(
                "If the nozzle was full when diluent was drawn on top. Not counted above: a syringe \
                 without dead space has none of it"
            ),
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
        Impossible::NothingWanted => tr!("No dose is wanted yet."),
        Impossible::NoVials => tr!("Without a vial nothing can be made."),
        Impossible::NoStrength => tr!("Choose a strength."),
        Impossible::VialUnits { low, high } => tr!(
            "A vial holds between {low} and {high}.",
            low = numbers::units_named(low),
            high = numbers::units_named(high)
        ),
        Impossible::VialTooSmall { least } => tr!(
            "The vial is too small: this syringe measures no less than {least} well.",
            least = numbers::volume_named(least)
        ),
        Impossible::TooStrong { strongest, ceiling: Ceiling::LeastDiluent(least) } => tr!(
            "Too strong for this vial: in {least}, the least that this syringe measures well, it gives \
             {strongest}.",
            least = numbers::volume_named(least),
            strongest = numbers::strength_named(strongest)
        ),
        Impossible::TooStrong { strongest, ceiling: Ceiling::NoneStrongerKnown } => {
            tr!(
                "Nothing stronger than {strength} is known to be used.",
                strength = numbers::strength_named(strongest)
            )
        }
        Impossible::TooWeak { weakest } => tr!(
            "Too weak for this syringe: it measures nothing weaker than {weakest} well.",
            weakest = numbers::strength_named(weakest)
        ),
        Impossible::OffMarks { nearest } => tr!(
            "The marks of this syringe do not give that strength. The nearest is {nearest}.",
            nearest = numbers::strength_named(nearest)
        ),
        Impossible::VialsRunOut { vials, possible } => tr!(
            "{count} vial gives {amount} at most." | "{count} vials give {amount} at most." % vials,
            count = numbers::whole(vials),
            amount = wanted(possible)
        ),
        Impossible::TooManySyringes { most, possible } => tr!(
            "More than {count} syringe: take a larger one. So many hold {amount}."
                | "More than {count} syringes: take a larger one. So many hold {amount}." % most,
            count = numbers::whole(most),
            amount = wanted(possible)
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
    tr!("Make {amount}", amount = wanted(possible))
}

/// A button that takes another strength.
pub fn take_strength(strength: Strength) -> String {
    tr!("Take {strength}", strength = numbers::strength_named(strength))
}

/// A syringe by its size and marks.
pub fn syringe(syringe: Syringe) -> String {
    tr!(
        "{capacity} mL, marked every {interval} mL",
        capacity = numbers::typed(&syringe.capacity()),
        interval = numbers::volume(syringe.interval())
    )
}

/// Why no syringe is like that.
pub fn unfit(unfit: Unfit) -> String {
    match unfit {
        Unfit::NoMarks => tr!("Type the distance of its marks."),
        Unfit::TooSmall { least } => {
            tr!("No syringe is smaller than {least}.", least = numbers::volume_named(least))
        }
        Unfit::TooLarge { below } => {
            tr!(
                "Only syringes below {volume} can be counted with.",
                volume = numbers::volume_named(below)
            )
        }
        Unfit::CapacityOffMarks => tr!("Its size is not a whole number of its marks."),
        Unfit::MarksTooWide { widest } => tr!(
            "Marks lie no wider than {widest} on a syringe of that size.",
            widest = numbers::volume_named(widest)
        ),
        Unfit::TooManyMarks { most } => tr!("No eye tells more than {most} marks apart.", most),
    }
}

/// A diluent as a layer's name.
pub fn diluent_named(diluent: Diluent) -> String {
    capital(diluent_short(diluent))
}

/// The order of a movement, without its figure.
pub fn order(movement: Movement, vials: u32, diluent: Diluent) -> String {
    let diluent = diluent_short(diluent);
    match movement {
        Movement::DrawDiluent { .. } => tr!("Draw {diluent} to", diluent),
        Movement::Dissolve { vial } if vials > 1 => {
            tr!("Push all of it into vial {number}", number = vial)
        }
        Movement::Dissolve { .. } => tr!("Push all of it into the vial"),
        Movement::DrawFromVial { vial, .. } if vials > 1 => {
            tr!("Draw from vial {number} to", number = vial)
        }
        Movement::DrawFromVial { .. } => tr!("Draw from the vial to"),
        Movement::MakeUp { .. } => tr!("Draw {diluent} on top, to", diluent),
        Movement::Expel { .. } => tr!("Push out, down to"),
        Movement::Finish { syringe } => tr!("Syringe {number} is ready", number = syringe),
    }
}

/// What else to do with the movement.
pub fn with_it(movement: Movement, diluent: Diluent) -> Option<String> {
    match movement {
        Movement::DrawDiluent { .. } => Some(self::diluent(diluent)),
        Movement::Dissolve { .. } => Some(tr!("Swirl until no powder is left.")),
        Movement::DrawFromVial { .. } => Some(tr!("Air out first, then read the mark.")),
        Movement::MakeUp { .. } => Some(tr!("Then mix: a little air in, tip it, air out.")),
        Movement::Expel { .. } => Some(tr!("Into a swab, not into the vial.")),
        Movement::Finish { .. } => None,
    }
}

/// That a movement is made: the words on the button.
pub fn made(movement: Movement) -> String {
    let to = |word: &str| {
        let mark = movement.mark().unwrap_or(Volume::ZERO);
        format!("{word}, {}", numbers::volume_named(mark))
    };
    match movement {
        Movement::DrawDiluent { .. } | Movement::DrawFromVial { .. } => {
            to(spoken_as(Some("into the syringe"), "Drawn"))
        }
        Movement::MakeUp { .. } => to(mixed()),
        Movement::Expel { .. } => to(spoken("Pushed out")),
        Movement::Dissolve { .. } => tr!("Dissolved"),
        Movement::Finish { .. } => tr!("Labelled, put aside"),
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
    tr!(
        "The nozzle adds what it holds: up to {volume}, that is {units}. Use a syringe with little \
         dead space.",
        volume = numbers::volume_named(dead_space),
        units = numbers::units_named(units)
    )
}
