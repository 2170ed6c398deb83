//! What was done and left out, one by one.

use super::besides::{aspirin_given, unchecked};
use super::looks::{baseline, left_out, one_sided};
use super::played::Played;
use super::{Figure, Finding, Given, Overdue, Verdict, What};
use crate::care::allergy::{Answer, Urgency};
use crate::care::anaphylaxis;
use crate::care::rounds::{Act, End, Round};
use crate::care::situation::RedFlag;
use crate::case::Event;
use crate::measure::order;
use crate::measure::{Moment, Span};
use crate::protocol::PerMille;
use crate::protocol::simulation::{
    ADRENALINE_GIVEN, CALLED, COVERAGE, FIRST_UNIT, FULL_STRENGTH, LOOK_LATE, Pace,
    REACTION_NOTICED, RECOGNISED, SIGHT_HANDED_OVER, SIGHT_NOTICED,
};
use crate::rehearsal::coming;
use crate::rehearsal::given::expired_used;

/// The findings, as they are gathered.
struct Sheet(Vec<Finding>);

impl Sheet {
    fn add(&mut self, what: What, verdict: Verdict, figure: Option<Figure>) {
        self.0.push(Finding { what, verdict, figure });
    }

    /// A step that is to be done: good if it was, else as said.
    fn step(&mut self, what: What, done: bool, otherwise: Verdict) {
        self.add(what, if done { Verdict::Good } else { otherwise }, None);
    }

    /// Of something that should not be: good at none, else as said.
    fn none(&mut self, what: What, number: u32, otherwise: Verdict) {
        let verdict = if number == 0 { Verdict::Good } else { otherwise };
        self.add(what, verdict, Some(Figure::Count(number)));
    }

    /// A time against its pace; what never happened is dangerous and has no time.
    fn time(&mut self, what: What, took: Option<Span>, pace: Pace) {
        let verdict = match took {
            Some(took) if took <= pace.good => Verdict::Good,
            Some(took) if took <= pace.slow => Verdict::Improve,
            _ => Verdict::Dangerous,
        };
        self.add(what, verdict, took.map(Figure::Span));
    }
}

/// What was done and left out, in the order of [`What`].
pub(super) fn findings(
    played: &Played,
    given: &Given,
    overdue: Overdue,
    good: bool,
) -> Vec<Finding> {
    let mut sheet = Sheet(Vec::new());
    before(&mut sheet, played);
    if given.rounds > 0 {
        dose(&mut sheet, played, given);
        looks(&mut sheet, played, overdue);
    }
    sight(&mut sheet, played);
    reaction(&mut sheet, played);
    let aspirin = aspirin_given(played);
    if aspirin.any {
        sheet.step(What::AspirinUnasked, !aspirin.unasked, Verdict::Dangerous);
        sheet.step(What::AspirinForbidden, !aspirin.forbidden, Verdict::Dangerous);
    }
    ending(&mut sheet, played, given, good);
    order::by_key(&mut sheet.0, |finding| finding.what);
    sheet.0
}

fn before(sheet: &mut Sheet, played: &Played) {
    let took = played.urgent().map(|at| played.since_start(at));
    sheet.time(What::Recognised, took, RECOGNISED);
    let first = played.first_unit().unwrap_or(played.judged);
    let by = |so: fn(&Event) -> bool| played.first(so).is_some_and(|at| at <= first);
    let asked = by(|event| matches!(event, Event::Found(_)));
    sheet.step(What::FlagsAsked, asked, Verdict::Dangerous);
    let asked = by(|event| matches!(event, Event::Asked(_)));
    let stings = played.case.answers.as_ref().is_some_and(|answers| {
        // What was asked and nobody knew is taken down as such, and looks the same as not asked.
        [answers.previous_reaction, answers.bee, answers.wasp]
            .iter()
            .all(|answer| *answer != Answer::Unknown)
    });
    let verdict = match (asked, stings) {
        (true, true) => Verdict::Good,
        (true, false) => Verdict::Improve,
        (false, _) => Verdict::Dangerous,
    };
    sheet.add(What::AllergyAsked, verdict, None);
    let ready = by(|event| matches!(event, Event::Ready));
    sheet.step(What::ReadyConfirmed, ready, Verdict::Dangerous);
    sheet.step(What::BaselineLook, baseline(played), Verdict::Improve);
    if let Some(unchecked) = unchecked(played) {
        sheet.none(What::MovementsChecked, unchecked, Verdict::Improve);
    }
    let took = played.first_unit().map(|at| played.since_start(at));
    sheet.time(What::FirstUnit, took, FIRST_UNIT);
}

fn dose(sheet: &mut Sheet, played: &Played, given: &Given) {
    let expired = expired_used(played.brief, played.journal, played.case);
    sheet.none(What::ExpiredVial, expired, Verdict::Dangerous);
    let (good, poor) = COVERAGE;
    let graded = |well: bool, enough: bool| match (well, enough) {
        (true, _) => Verdict::Good,
        (false, true) => Verdict::Improve,
        (false, false) => Verdict::Dangerous,
    };
    let covered = graded(given.coverage >= good, given.coverage >= poor);
    sheet.add(What::Coverage, covered, Some(Figure::Part(given.coverage)));
    sheet.none(What::PointsOpen, given.open, Verdict::Improve);
    sheet.none(What::PointsSkipped, given.skipped, Verdict::Improve);
    // Without a round that was to be whole there is nothing to hold against it.
    if played.case.treatment.rounds().iter().any(|round| !played.cut_short(round)) {
        let dense = graded(given.per_cm2 >= given.needed, given.per_cm2.times(2) >= given.needed);
        sheet.add(What::Density, dense, Some(Figure::Units(given.per_cm2)));
    }
    let strengths = played.case.treatment.rounds().iter().map(|round| round.plan.strength);
    if let Some(weakest) = strengths.map(crate::measure::Strength::in_one_ml).min() {
        let full = weakest >= FULL_STRENGTH.in_one_ml();
        let verdict = if full { Verdict::Good } else { Verdict::Improve };
        sheet.add(What::Strength, verdict, Some(Figure::Units(weakest)));
    }
}

fn looks(sheet: &mut Sheet, played: &Played, overdue: Overdue) {
    sheet.none(What::OtherSideTimed, one_sided(played), Verdict::Improve);
    let verdict = if overdue.looks == 0 {
        Verdict::Good
    } else if overdue.worst <= LOOK_LATE.slow {
        Verdict::Improve
    } else {
        Verdict::Dangerous
    };
    sheet.add(What::LooksOverdue, verdict, Some(Figure::Span(overdue.by)));
    sheet.none(What::LooksLeftOut, left_out(played), Verdict::Dangerous);
}

fn sight(sheet: &mut Sheet, played: &Played) {
    let Some(gone) = played.sight else { return };
    let since = |at: Option<Moment>| at.map(|at| at.since(gone));
    let noticed = played.first_from(gone, |event| shows(event, RedFlag::Sight));
    let handed = played.handed_over(gone);
    // Whoever hands over at once need not write down first why.
    let noticed = [noticed, handed].into_iter().flatten().min();
    sheet.time(What::SightNoticed, since(noticed), SIGHT_NOTICED);
    sheet.time(What::SightHandedOver, since(handed), SIGHT_HANDED_OVER);
    let units = played.units_between(gone, played.judged);
    let verdict = if units.is_zero() { Verdict::Good } else { Verdict::Dangerous };
    sheet.add(What::EnzymeAfterSight, verdict, Some(Figure::Units(units)));
}

fn reaction(sheet: &mut Sheet, played: &Played) {
    let outside = played.odd_adrenaline();
    if let Some(volume) = outside {
        sheet.add(What::AdrenalineDose, Verdict::Dangerous, Some(Figure::Volume(volume)));
    }
    let Some((onset, reacting)) = &played.reaction else { return };
    let onset = *onset;
    let since = |at: Option<Moment>| at.map(|at| at.since(onset));
    let noticed = played.first_from(onset, |event| {
        matches!(event, Event::Anaphylaxis(_)) || shows(event, RedFlag::Airway)
    });
    let given = played.adrenaline(onset);
    sheet.time(What::ReactionNoticed, since(noticed), REACTION_NOTICED);
    sheet.time(What::Adrenaline, since(given), ADRENALINE_GIVEN);
    if outside.is_none() && given.is_some() {
        sheet.add(What::AdrenalineDose, Verdict::Good, None);
    }
    sheet.time(What::Called, since(played.called(onset)), CALLED);
    let over = reacting.over.unwrap_or(played.now);
    let units = played.units_between(onset, over);
    let verdict = if units.is_zero() { Verdict::Good } else { Verdict::Dangerous };
    sheet.add(What::EnzymeInReaction, verdict, Some(Figure::Units(units)));
}

/// Whether a sign that goes before everything is told by this event.
fn shows(event: &Event, flag: RedFlag) -> bool {
    match event {
        Event::Noticed(noticed) => *noticed == flag,
        Event::Found(found) => found.red_flags.contains(&flag),
        Event::Round(Act::Look(look)) => look.red_flags.contains(&flag),
        _ => false,
    }
}

fn ending(sheet: &mut Sheet, played: &Played, given: &Given, good: bool) {
    let patient = &played.brief.patient;
    if matches!(played.ended, Some((_, End::Done))) {
        let back = played.skin.is_back(patient);
        let verdict = if back { Verdict::Good } else { Verdict::Dangerous };
        let blocked = PerMille(u32::try_from(played.skin.blocked).unwrap_or(u32::MAX));
        sheet.add(What::ClosedTooEarly, verdict, Some(Figure::Part(blocked)));
    }
    let verdict = match (good, played.ended) {
        (true, Some(_)) => Verdict::Good,
        (true, None) => Verdict::Improve,
        (false, _) => Verdict::Dangerous,
    };
    sheet.add(What::Ended, verdict, Some(Figure::Count(given.rounds)));
}

impl Played<'_> {
    /// Whether a round has open points because a sign that goes before everything came in it.
    pub fn cut_short(&self, round: &Round) -> bool {
        let came = [self.sight, self.reaction.as_ref().map(|(onset, _)| *onset)];
        let over = round.finished.unwrap_or(self.judged);
        let in_it = |at: &Moment| *at <= over;
        round.open() > 0 && came.iter().flatten().any(in_it)
    }

    /// When it was taken for urgent.
    pub fn urgent(&self) -> Option<Moment> {
        self.first(|event| matches!(event, Event::Way { urgency: Urgency::Urgent, .. }))
    }

    /// The first dose of adrenaline outside the region's range.
    fn odd_adrenaline(&self) -> Option<crate::measure::Volume> {
        let anaphylaxis::Dose { low, high } = coming::range(self.brief, self.case);
        coming::adrenaline(self.journal, self.case)
            .map(|(_, volume)| volume)
            .find(|volume| *volume < low || *volume > high)
    }
}
