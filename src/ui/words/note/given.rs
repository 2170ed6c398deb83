//! What was made and given.

use super::super::document::{Line, Part, Pictured, field, hour, known, not_noted, say};
use super::super::{adjunct, anaphylaxis, dilution, numbers, rounds, situation, time};
use super::{enzyme, on};
use crate::care::allergy::Urgency;
use crate::care::rounds::Point;
use crate::care::territory::Territory;
use crate::kit::Vial;
use crate::record::note::{Given, Note, Solution};
use crate::ui::language::{spoken, spoken_as, within};

words! {
    given_label = "Given" as "what was injected";
}

/// A solution each: powder, diluent, strength, vials.
pub(super) fn solutions(note: &Note) -> Vec<Part> {
    if note.solutions.is_empty() {
        return vec![Part::new(spoken("Solution"), vec![say(spoken("No solution was made."))])];
    }
    (1..).zip(&note.solutions).map(|(number, made)| solution(note, number, made)).collect()
}

fn solution(note: &Note, number: usize, made: &Solution) -> Part {
    let plan = &made.plan;
    let delivered = plan.delivered();
    let syringes = plan.syringes().len();
    let mut lines = vec![
        field(spoken("Chosen"), on(note, made.at)),
        field(
            spoken("Powder"),
            tr!(
                "{drug}, {units} in each vial",
                drug = enzyme(note),
                units = numbers::units_named(plan.ask().vial.units)
            ),
        ),
        field(spoken("Diluent"), dilution::diluent(made.diluent)),
        field(spoken("Strength"), numbers::strength_named(plan.strength())),
        field(spoken_as(Some("a solution is made"), "How"), dilution::method(plan.method())),
        field(
            spoken_as(Some("a solution"), "Made"),
            tr!(
                "{units} in {volume}, {count} syringe"
                    | "{units} in {volume}, {count} syringes" % syringes,
                units = numbers::units_named(delivered.units),
                volume = numbers::volume_named(delivered.volume),
                count = numbers::whole(syringes)
            ),
        ),
    ];
    for number in 1..=plan.vials_used() {
        let noted = made.vials.iter().find(|vial| vial.number == number);
        lines.push(field(&tr!("Vial {number}", number), vial(noted)));
    }
    // Noted beyond those that the plan opens.
    for more in made.vials.iter().filter(|vial| vial.number > plan.vials_used()) {
        lines.push(field(&tr!("Vial {number}", number = more.number), vial(Some(more))));
    }
    Part::new(tr!("Solution {number}", number), lines)
}

/// A vial's batch and expiry, each or that it was not noted.
pub(in crate::ui::words) fn vial(vial: Option<&Vial>) -> String {
    let batch = vial.map(|vial| vial.batch.trim()).filter(|batch| !batch.is_empty());
    let expiry = vial.and_then(|vial| vial.expiry).map(time::day);
    tr!(
        "batch {batch}, expiry {expiry}",
        batch = batch.unwrap_or(not_noted()),
        expiry = expiry.as_deref().unwrap_or(not_noted())
    )
}

/// All rounds in a table, then each by itself.
pub(super) fn rounds(note: &Note) -> Vec<Part> {
    let mut all = Vec::new();
    if let Some((filler, dose)) = note.filler {
        all.push(field(spoken("Filler to take away"), numbers::volume_named(filler)));
        all.push(field(spoken("Dose chosen"), numbers::units_named(dose)));
    }
    if note.rounds.is_empty() {
        all.push(say(spoken("No hyaluronidase was injected as treatment.")));
        return vec![Part::new(given_label(), all)];
    }
    let mut head = vec![name(note)];
    head.extend(["Begun", "Points given", "Units", "Volume", "Units so far"].map(spoken));
    let rows = (1..).zip(&note.rounds).map(|(number, given): (usize, _)| row(note, number, given));
    all.push(Line::Table(head, rows.collect()));
    all.push(field(spoken("In all"), in_all(note)));
    let each = note.rounds.iter().enumerate().map(|(index, given)| round(note, index, given));
    std::iter::once(Part::new(given_label(), all)).chain(each).collect()
}

fn in_all(note: &Note) -> String {
    let (units, volume) =
        (numbers::units_named(note.units()), numbers::volume_named(note.volume()));
    let number = note.rounds.len();
    let count = numbers::whole(number);
    if planned(note) {
        tr!(
            "{units} in {volume}, {count} session"
                | "{units} in {volume}, {count} sessions" % number,
            units,
            volume,
            count
        )
    } else {
        tr!(
            "{units} in {volume}, {count} round" | "{units} in {volume}, {count} rounds" % number,
            units,
            volume,
            count
        )
    }
}

fn injected(given: &Given) -> usize {
    given.round.points.iter().filter(|point| matches!(point, Point::Injected(_))).count()
}

fn planned(note: &Note) -> bool {
    note.urgency() == Some(Urgency::Planned)
}

/// What a round is called: planned work has sessions.
fn name(note: &Note) -> &'static str {
    spoken(if planned(note) { "Session" } else { "Round" })
}

fn row(note: &Note, number: usize, given: &Given) -> Vec<String> {
    vec![
        format!("{} {number}", name(note)),
        on(note, given.round.begun),
        injected(given).to_string(),
        numbers::units(given.round.units()),
        numbers::volume_named(given.round.volume()),
        numbers::units(given.units_so_far),
    ]
}

fn round(note: &Note, index: usize, given: &Given) -> Part {
    let round = &given.round;
    let finished = round.finished.map_or_else(
        || tr!("not finished"),
        |at| tr!("finished {hour}", hour = hour(note.hours.local(at))),
    );
    let mut lines = vec![
        field(spoken("Begun"), format!("{}, {finished}", on(note, round.begun))),
        known(spoken("Where"), given.territory.as_ref().map(skin)),
        field(spoken("Strength"), numbers::strength_named(round.plan.strength)),
        field(spoken("Batches"), batches(&given.batches)),
        field(
            spoken("Points given"),
            tr!("{part} of {whole}", part = injected(given), whole = there(given)),
        ),
    ];
    for (number, point) in (1_u32..).zip(&round.points) {
        if let Point::Skipped(reason) = point {
            let why = within(rounds::skip(*reason));
            lines.push(field(&tr!("Point {number}", number), tr!("left out, {why}", why)));
        }
    }
    if round.open() > 0 {
        let open = round.open();
        lines.push(field(
            spoken("Left open"),
            tr!("{count} point" | "{count} points" % open, count = numbers::whole(open)),
        ));
    }
    lines.push(field(
        given_label(),
        tr!(
            "{units} in {volume}; so far {units_so_far} in {volume_so_far}",
            units = numbers::units_named(round.units()),
            volume = numbers::volume_named(round.volume()),
            units_so_far = numbers::units_named(given.units_so_far),
            volume_so_far = numbers::volume_named(given.volume_so_far)
        ),
    ));
    Part::new(format!("{} {}", name(note), index + 1), lines).with(Pictured::Round(index))
}

/// Points that there are, less those taken back.
fn there(given: &Given) -> usize {
    given.round.points.iter().filter(|point| **point != Point::Withdrawn).count()
}

/// Batches, or that none was noted.
pub(in crate::ui::words) fn batches(batches: &[String]) -> String {
    if batches.is_empty() { not_noted().to_owned() } else { batches.join(", ") }
}

/// The skin treated: its zones and its surface.
pub(in crate::ui::words) fn skin(skin: &Territory) -> String {
    let zones: Vec<&str> = skin.zones().iter().map(|zone| situation::zone(*zone)).collect();
    let area = numbers::area_named(skin.area());
    if zones.is_empty() { area } else { format!("{}; {area}", zones.join(", ")) }
}

pub(super) fn besides(note: &Note) -> Part {
    let chosen = note.besides.iter().map(|chosen| {
        let (name, choice) = (adjunct::adjunct(chosen.adjunct), adjunct::choice(chosen.choice));
        field(&on(note, chosen.at), format!("{name}: {choice}"))
    });
    let mut lines: Vec<Line> = chosen.collect();
    if lines.is_empty() {
        lines.push(say(spoken("Nothing is recorded.")));
    }
    Part::new(adjunct::title(), lines)
}

/// A severe reaction, act by act; none where there was none.
pub(super) fn reaction(note: &Note) -> Option<Part> {
    let acts = note.reaction.iter();
    let lines: Vec<Line> =
        acts.map(|(at, act)| field(&on(note, *at), anaphylaxis::act(act))).collect();
    (!lines.is_empty()).then(|| Part::new(spoken("Severe reaction"), lines))
}
