//! The whole case under any order of events and any clock, hour after hour.

use super::happened::{Happening, START, What, anything, journal, plan, round, taken_back};
use freshet::care::handover::Fact;
use freshet::care::perfusion::next;
use freshet::care::rounds::{Act, HandOver, Phase, Round};
use freshet::care::situation::RedFlag;
use freshet::case::{Case, Entry, Event, Journal, StrikeReason};
use freshet::measure::{Hash, Moment, Span, Strength, Units, Volume};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::BTreeSet;

/// All that is asked of a case by a screen; what comes out may be rubbish if the journal was.
fn ask(case: &Case, journal: &Journal, now: Moment) {
    let reasons = [None, Some(HandOver::Sight), Some(HandOver::NoImprovement)];
    for reason in reasons {
        let sheet = case.handover(journal, reason, now);
        assert!(!sheet.recommendation.is_empty());
    }
    let _ = (case.sight(journal), case.noticed(journal), case.shrinking(), case.known());
    let _ = (case.batches(journal), case.sight_first(journal, None));
    let person = case.findings.as_ref().map(|found| found.person).unwrap_or_default();
    let states = case.states();
    assert_eq!(states.len(), case.treatment.looks().len());
    let _ = next(&case.treatment, &case.flags, &states, person, &case.protocol);
    let _ = case.adjuncts.conflicts(now, case.reaction.active());
    let _ = (case.step(), case.clearance(), case.next_round(), case.begin_next());
    let _ = (case.syringe_changes(), case.syringe_in_hand(), case.planned_volume());
    let _ =
        (case.reaction.next_dose(&case.protocol), case.reaction.refractory(now, &case.protocol));
    let _ = (case.vials_left(), case.solution_for_next(), case.stop(), case.open());
}

/// A case told twice is told alike; the grid that is laid when first asked for is no part of it.
fn told(case: &Case) -> String {
    format!("{case:?}")
}

/// What was injected, by the entries alone: each injection that was neither struck out nor refused
/// goes to the round begun last before it, at that round's strength.
fn injected(journal: &Journal, case: &Case) -> Vec<Units> {
    let mut rounds: Vec<(Strength, Volume)> = Vec::new();
    let refused: BTreeSet<Hash> = case.refused.iter().map(|(id, _)| *id).collect();
    let counts =
        |entry: &&Entry| !case.struck.contains(&entry.id()) && !refused.contains(&entry.id());
    for entry in journal.entries().iter().filter(counts) {
        match entry.event() {
            Event::Round(Act::Begin(plan) | Act::BeginOn(plan, _)) => {
                rounds.push((plan.strength, Volume::ZERO));
            }
            Event::Round(Act::Inject { volume, .. }) => {
                let round = rounds.last_mut().expect("refused without a round");
                round.1 += *volume;
            }
            _ => {}
        }
    }
    rounds.into_iter().map(|(strength, volume)| strength.units_in(volume)).collect()
}

/// A case on its way: begun, and in the middle of a round, so that much of what comes fits.
fn under_way() -> impl Strategy<Value = Vec<Happening>> {
    let start = (plan(), vec((round(), 0..300_000_i64), 0..30), anything());
    start.prop_map(|(plan, rounds, more)| {
        let begun = [Event::Ready, Event::Preparation(Box::new(plan))];
        let mut all: Vec<Happening> =
            begun.into_iter().map(|event| (What::This(event), 1_000)).collect();
        all.extend(rounds.into_iter().map(|(act, step)| (What::This(Event::Round(act)), step)));
        all.extend(more);
        all
    })
}

proptest! {
    /// No dose is lost and none counted twice, whatever was struck out around it.
    #[test]
    fn no_dose_is_lost(happenings in under_way()) {
        let journal = journal(1, &happenings);
        let case = Case::of(&journal);
        let units: Vec<Units> = case.treatment.rounds().iter().map(Round::units).collect();
        prop_assert_eq!(&units, &injected(&journal, &case));
        let sum: Units = units.into_iter().sum();
        prop_assert_eq!(case.treatment.units(), sum);
        let volumes: Volume = case.treatment.rounds().iter().map(Round::volume).sum();
        prop_assert_eq!(case.treatment.volume(), volumes);
        let sheet = case.handover(&journal, None, case.last);
        let told = sheet.background.iter().find_map(|fact| match fact {
            Fact::InAll { rounds, units, volume } => Some((*rounds, *units, *volume)),
            _ => None,
        });
        let count = case.treatment.rounds().len();
        prop_assert_eq!(told, (count > 0).then_some((count, sum, volumes)));
    }

    /// Striking an entry out never adds units, and takes away no more than that entry and those that
    /// no longer fit without it gave, which are told as refused.
    #[test]
    fn striking_out_adds_nothing_and_hides_nothing(
        happenings in under_way(), which in any::<Index>(),
    ) {
        let before = journal(1, &happenings);
        let struck = which.get(before.entries()).id();
        let mut after = before.clone();
        let event = Event::Struck { entry: struck, reason: StrikeReason::Slip };
        let last = Case::of(&before).last;
        after.append(last, 0, event);
        let (before_case, case) = (Case::of(&before), Case::of(&after));
        let injections = |journal: &Journal, ids: &dyn Fn(&Hash) -> bool| -> Volume {
            journal.entries().iter().filter(|entry| ids(&entry.id())).map(|entry| {
                match entry.event() {
                    Event::Round(Act::Inject { volume, .. }) => *volume,
                    _ => Volume::ZERO,
                }
            }).sum()
        };
        let refused = |case: &Case, id: &Hash| case.refused.iter().any(|(other, _)| other == id);
        let gone = injections(&after, &|id| {
            !before_case.struck.contains(id)
                && !refused(&before_case, id)
                && (*id == struck || refused(&case, id))
        });
        let come = injections(&after, &|id| {
            *id != struck && !before_case.struck.contains(id) && refused(&before_case, id)
                && !refused(&case, id)
        });
        let (had, has) = (before_case.treatment.volume(), case.treatment.volume());
        prop_assert_eq!(has + gone, had + come);
    }

    /// No time is before another that it follows: a look due is due at a moment gone by, one to come
    /// at a moment to come, no further off than the interval and what the clock was set back.
    #[test]
    fn no_time_is_negative(happenings in under_way(), after in any::<i32>()) {
        let journal = journal(1, &happenings);
        let case = Case::of(&journal);
        let now = case.last.on_clock_set_by(i64::from(after) * 1_000);
        let phase = |at| case.treatment.phase(at, &case.protocol);
        if let Phase::Watching { due } | Phase::Due { due } = phase(now) {
            let finished = case.treatment.rounds().last().unwrap().finished.unwrap();
            prop_assert!(due <= finished.after(case.protocol.round_interval), "never put off");
            // Whatever the clock shows now: it is due from its moment on, and not before.
            let instant = Span::millis(1);
            prop_assert_eq!(phase(due), Phase::Due { due });
            prop_assert_eq!(phase(due.after(instant)), Phase::Due { due });
            // But for a clock set back to the beginning of all time.
            if due.before(instant) < due {
                prop_assert_eq!(phase(due.before(instant)), Phase::Watching { due });
            }
        }
        for fact in case.handover(&journal, None, now).situation {
            if let Fact::Onset(Some((at, since))) = fact {
                prop_assert_eq!(at.after(since), at.max(now), "nothing began after now");
            }
        }
    }

    /// A sign is told with the moment of the first entry that says it and counts; each that stands is
    /// told, and none that no such entry says.
    #[test]
    fn a_sign_is_told_with_its_first_moment(happenings in under_way()) {
        let journal = journal(1, &happenings);
        let case = Case::of(&journal);
        let told = case.noticed(&journal);
        for flag in [RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway] {
            let says = |entry: &&Entry| match entry.event() {
                Event::Found(findings) => findings.red_flags.contains(&flag),
                Event::Noticed(noticed) => *noticed == flag,
                other => other.look().is_some_and(|look| look.red_flags.contains(&flag)),
            };
            let counts = |entry: &&Entry| {
                let id = entry.id();
                !case.struck.contains(&id) && case.refused.iter().all(|(other, _)| *other != id)
            };
            let first = journal.entries().iter().filter(counts).find(says).map(Entry::at);
            let at = told.iter().find(|noticed| noticed.flag == flag).map(|noticed| noticed.at);
            prop_assert_eq!(at, first);
            prop_assert!(first.is_some() || !case.flags.contains(&flag));
            // What could be taken back is the last word on a sign that stands.
            if let Some((entry, at)) = case.noticing(&journal, flag) {
                prop_assert!(case.flags.contains(&flag));
                let last = journal.entries().iter().filter(counts).rfind(says).unwrap();
                prop_assert_eq!((last.id(), last.at()), (entry, at));
            }
        }
    }

    /// A sign, something besides or a region that was struck out is as if a note had been made in its
    /// place.
    #[test]
    fn what_is_taken_back_leaves_nothing_behind(
        happenings in under_way(), what in taken_back(), place in any::<Index>(),
    ) {
        let place = place.index(happenings.len() + 1);
        let fold = |event: Event| {
            let mut all = happenings.clone();
            all.insert(place, (What::This(event), 1_000));
            let mut journal = journal(1, &all);
            // The first entry opens the case.
            let entry = journal.entries()[place + 1].id();
            let last = journal.entries().last().unwrap().at();
            let reason = StrikeReason::Slip;
            journal.append(last, 0, Event::Struck { entry, reason });
            let case = Case::of(&journal);
            let sheet = case.handover(&journal, None, last);
            (case, sheet)
        };
        let (with, told) = fold(what);
        let (without, expected) = fold(Event::Note(String::new()));
        prop_assert_eq!(with.flags, without.flags);
        prop_assert_eq!(with.adjuncts, without.adjuncts);
        prop_assert_eq!(with.protocol.region, without.protocol.region);
        prop_assert_eq!(with.treatment.units(), without.treatment.units());
        prop_assert_eq!(told, expected);
    }

    /// By the time that really passes a look is due after the interval, however the clock is set in
    /// between, and never later: a jump forward may bring it nearer, none puts it off.
    #[test]
    fn a_look_is_never_due_later_than_the_interval_really_takes(
        first in 0_i64..100, jumps in vec((0_i64..40, -90_i64..90), 0..6),
    ) {
        const MINUTE: i64 = 60_000;
        let plan = freshet::care::dose::RoundPlan {
            strength: Strength::per_ml(500),
            bolus: Volume::ul(100),
            points: 1,
        };
        let act = |act, step: i64| (What::This(Event::Round(act)), step * MINUTE);
        let mut all = vec![act(Act::Begin(plan), first), act(Act::Finish, 3)];
        let mut off = 0;
        for (passed, jump) in &jumps {
            let millis = jump * MINUTE;
            all.push((What::This(Event::ClockJumped(millis)), passed * MINUTE + millis));
            off += millis;
        }
        let case = Case::of(&journal(1, &all));
        let (Phase::Watching { due } | Phase::Due { due }) =
            case.treatment.phase(case.last, &case.protocol)
        else {
            panic!("{:?}", case.treatment)
        };
        let really = due.on_clock_set_by(-off);
        let finished = START.after(Span::minutes(u64::try_from(first + 3).unwrap()));
        let latest = finished.after(case.protocol.round_interval);
        prop_assert!(really <= latest);
        if jumps.iter().all(|(_, jump)| *jump <= 0) {
            prop_assert_eq!(really, latest);
        }
    }

    /// Folding is a function of the journal: twice the same, and the same from its lines in any
    /// order.
    #[test]
    fn folding_twice_is_folding_once(happenings in under_way(), turn in any::<Index>()) {
        let whole = journal(1, &happenings);
        let case = Case::of(&whole);
        prop_assert_eq!(told(&case), told(&Case::of(&whole)));
        let mut entries: Vec<Entry> =
            whole.lines().lines().map(|line| Entry::read(line).unwrap()).collect();
        let turn = turn.index(entries.len());
        entries.rotate_left(turn);
        let (again, faults) = Journal::from_entries(whole.case(), entries);
        prop_assert_eq!(faults, vec![]);
        prop_assert_eq!(told(&case), told(&Case::of(&again)));
    }

    /// A phone that died in the middle and went on: the beginning and then the rest are the whole.
    #[test]
    fn the_beginning_and_then_the_rest_are_the_whole(
        happenings in under_way(), cut in any::<Index>(),
    ) {
        let whole = journal(1, &happenings);
        let cut = cut.index(whole.entries().len() + 1);
        let (first, rest) = whole.entries().split_at(cut);
        let (mut grown, faults) = Journal::from_entries(whole.case(), first.to_vec());
        prop_assert_eq!(faults, vec![]);
        let _ = Case::of(&grown);
        for entry in rest {
            prop_assert_eq!(grown.push(entry.clone()), Ok(()));
        }
        prop_assert_eq!(&grown, &whole);
        prop_assert_eq!(told(&Case::of(&grown)), told(&Case::of(&whole)));
    }

}

proptest! {
    // Each folds as many journals as it has entries.
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// At each step of the way every screen has its answer.
    #[test]
    fn nothing_that_is_asked_panics(happenings in under_way(), off in any::<i64>()) {
        let whole = journal(1, &happenings);
        let mut grown = Journal::new(whole.case());
        for entry in whole.entries() {
            grown.push(entry.clone()).unwrap();
            let case = Case::of(&grown);
            ask(&case, &grown, entry.at());
        }
        ask(&Case::of(&whole), &whole, Moment::from_millis(off));
        ask(&Case::of(&grown), &grown, START);
    }
}
