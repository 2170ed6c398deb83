//! The simulated patient: answers to what is done, never to anything else.

use super::happened::{Happening, START, What, anything, journal, look, territory};
use freshet::care::anaphylaxis;
use freshet::care::dose::RoundPlan;
use freshet::care::refill::Colour;
use freshet::care::rounds::{Act, SkipReason};
use freshet::care::territory::{Size, Territory};
use freshet::case::{Entry, Event, Journal};
use freshet::measure::{Area, Moment, Span, Strength, Volume};
use freshet::protocol::{Protocol, simulation};
use freshet::rehearsal::{
    Condition, Debrief, Outcome, Picture, Scenario, condition, debrief, progress,
};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};

fn scenario() -> impl Strategy<Value = Scenario> {
    select(&Scenario::ALL[..])
}

/// Any moment, mostly in the hours after the start.
fn moment() -> impl Strategy<Value = Moment> {
    prop_oneof![
        6 => (-3_600_000..36_000_000_i64).prop_map(|millis| START.on_clock_set_by(millis)),
        1 => any::<i64>().prop_map(Moment::from_millis),
    ]
}

fn this(event: Event) -> What {
    What::This(event)
}

/// What is done at one point.
#[derive(Clone, Copy, Debug)]
struct Point {
    volume: u64,
    skipped: bool,
}

/// One round: told skin, strength, points, minutes until the look.
#[derive(Clone, Debug)]
struct Played {
    skin: Option<Territory>,
    strength: u64,
    points: Vec<Point>,
    waits: i64,
}

fn played() -> impl Strategy<Value = Played> {
    let point = (20_u64..200, prop::bool::weighted(0.2));
    let point = point.prop_map(|(volume, skipped)| Point { volume, skipped });
    let skin = proptest::option::of(territory());
    (skin, 100_u64..900, vec(point, 4..24), 10_i64..120)
        .prop_map(|(skin, strength, points, waits)| Played { skin, strength, points, waits })
}

/// Rounds on the scenario's own zones, so that something comes of them.
fn aimed() -> impl Strategy<Value = (Scenario, Vec<Played>)> {
    (scenario(), vec((played(), 300_u64..2_500), 1..5)).prop_map(|(scenario, rounds)| {
        let aim = |(played, mm2): (Played, u64)| {
            let zones = scenario.brief().zones.to_vec();
            let size = Size::Typed(Area::mm2(mm2));
            let skin = Territory::new(zones, size, &Protocol::default()).ok();
            Played { skin, ..played }
        };
        (scenario, rounds.into_iter().map(aim).collect())
    })
}

fn happenings(rounds: &[Played]) -> Vec<Happening> {
    let mut all = Vec::new();
    for round in rounds {
        if let Some(skin) = &round.skin {
            all.push((this(Event::Territory(skin.clone())), 60_000));
        }
        let plan = RoundPlan {
            strength: Strength::per_ml(round.strength),
            bolus: Volume::ul(100),
            points: u32::try_from(round.points.len()).unwrap(),
        };
        let mut act = |act, step| all.push((this(Event::Round(act)), step));
        act(Act::Begin(plan), 60_000);
        for (number, point) in (1..).zip(&round.points) {
            let done = if point.skipped {
                Act::Skip { point: number, reason: SkipReason::Patient }
            } else {
                Act::Inject { point: number, volume: Volume::ul(point.volume) }
            };
            act(done, 5_000);
        }
        act(Act::Finish, 5_000);
        all.push((this(Event::Note(String::new())), round.waits * 60_000));
    }
    all
}

/// That the skin of one is no worse than that of another, seen in the same minute.
fn no_worse(better: &Condition, worse: &Condition, picture: Picture) -> bool {
    let refill = match picture {
        Picture::Arterial => better.affected <= worse.affected,
        Picture::Venous => better.affected >= worse.affected,
    };
    refill
        && better.area <= worse.area
        && better.colour <= worse.colour
        && better.pain <= worse.pain
        && better.temperature <= worse.temperature
}

fn end_of(journal: &Journal) -> Moment {
    journal.entries().iter().map(Entry::at).max().unwrap_or(START)
}

fn well(debrief: &Debrief) -> bool {
    matches!(debrief.outcome, Outcome::Perfused | Outcome::Recovering)
}

proptest! {
    /// Whatever happened, whenever it began and whenever it is: an answer, and the same each time.
    #[test]
    fn any_journal_at_any_moment_has_an_answer(
        scenario in scenario(), happenings in anything(), start in moment(), now in moment(),
    ) {
        let journal = journal(1, &happenings);
        let seen = condition(scenario, start, &journal, now);
        prop_assert_eq!(&seen, &condition(scenario, start, &journal, now));
        let told = debrief(scenario, start, &journal, now);
        prop_assert_eq!(&told, &debrief(scenario, start, &journal, now));
        let mut sorted = told.findings.clone();
        sorted.sort_by_key(|finding| finding.what);
        sorted.dedup_by_key(|finding| finding.what);
        prop_assert_eq!(&told.findings, &sorted, "each once, in order");
        let text = serde_json::to_string(&told).unwrap();
        prop_assert_eq!(serde_json::from_str::<Debrief>(&text).unwrap(), told);
    }

    /// Nothing but its own journal is needed: under another name it is the same.
    #[test]
    fn only_what_was_done_counts(
        scenario in scenario(), happenings in anything(), now in moment(), id in any::<u128>(),
    ) {
        let (one, other) = (journal(1, &happenings), journal(id, &happenings));
        prop_assert_eq!(
            condition(scenario, START, &one, now),
            condition(scenario, START, &other, now)
        );
        prop_assert_eq!(
            debrief(scenario, START, &one, now),
            debrief(scenario, START, &other, now)
        );
    }

    /// What comes later changes nothing of before.
    #[test]
    fn the_future_does_not_count(
        scenario in scenario(), rounds in vec(played(), 0..4), after in vec(played(), 0..3),
        wait in 0_i64..9_000_000,
    ) {
        let before = journal(1, &happenings(&rounds));
        let now = end_of(&before);
        let mut all = happenings(&rounds);
        all.push((this(Event::Ready), wait + 1));
        all.extend(happenings(&after));
        let all = journal(1, &all);
        prop_assert_eq!(
            condition(scenario, START, &before, now),
            condition(scenario, START, &all, now)
        );
        prop_assert_eq!(debrief(scenario, START, &before, now), debrief(scenario, START, &all, now));
    }

    /// Before the start it is as at the start.
    #[test]
    fn before_the_start_it_is_as_at_the_start(scenario in scenario(), early in any::<u32>()) {
        let empty = journal(1, &[]);
        let before = START.before(Span::millis(early.into()));
        prop_assert_eq!(
            condition(scenario, START, &empty, before),
            condition(scenario, START, &empty, START)
        );
    }

    /// Without enzyme nothing is perfused, and the outline never shrinks.
    #[test]
    fn without_enzyme_it_never_opens(
        scenario in scenario(), happenings in anything(), one in 0_u64..6_000, more in 0_u64..600,
    ) {
        let without: Vec<Happening> = happenings
            .into_iter()
            .filter(|(what, _)| {
                !matches!(what, What::This(Event::Round(Act::Inject { .. })))
            })
            .collect();
        let journal = journal(1, &without);
        let at = |minutes| START.after(Span::minutes(minutes));
        let (before, after) = (
            condition(scenario, START, &journal, at(one)),
            condition(scenario, START, &journal, at(one + more)),
        );
        prop_assert_ne!(before.colour, Colour::Normal);
        prop_assert!(after.area >= before.area && after.colour >= before.colour);
        prop_assert!(!before.area.is_zero());
        let told = debrief(scenario, START, &journal, at(one + more));
        prop_assert!(!well(&told), "{:?}", told.outcome);
        prop_assert_eq!(told.times.perfused, None);
    }

    /// More at a point never ends worse, nor a point injected that was left out, nor a stronger
    /// solution; at whatever moment it is looked at.
    #[test]
    fn more_dose_and_coverage_never_end_worse(
        (scenario, rounds) in aimed(), which in any::<Index>(), point in any::<Index>(),
        more in 0_u64..300, stronger in 0_u64..600, minutes in 0_u64..900,
    ) {
        let mut better = rounds.clone();
        let round = &mut better[which.index(rounds.len())];
        let point = point.index(round.points.len());
        round.points[point].skipped = false;
        round.points[point].volume += more;
        round.strength += stronger;
        let (one, other) = (journal(1, &happenings(&better)), journal(1, &happenings(&rounds)));
        let at = START.after(Span::minutes(minutes));
        let picture = scenario.brief().picture;
        let (better, worse) =
            (condition(scenario, START, &one, at), condition(scenario, START, &other, at));
        prop_assert!(no_worse(&better, &worse, picture), "{better:?}\n{worse:?}");
        let (better, worse) =
            (debrief(scenario, START, &one, at), debrief(scenario, START, &other, at));
        prop_assert!(better.given.units >= worse.given.units);
        prop_assert!(better.given.coverage >= worse.given.coverage);
        // Where nothing but the skin counts, its end is no worse.
        if better.times.first_unit == worse.times.first_unit && scenario.brief().coming.is_empty() {
            prop_assert!(well(&better) || !well(&worse));
        }
    }

    /// One zone more of those without blood never ends worse.
    #[test]
    fn one_true_zone_more_never_ends_worse(
        (scenario, rounds) in aimed(), zone in any::<Index>(), minutes in 0_u64..900,
    ) {
        let zones = scenario.brief().zones;
        let fewer = |rounds: &[Played]| -> Vec<Played> {
            let left = zone.index(zones.len());
            let less = |round: &Played| {
                let mut kept = zones.to_vec();
                kept.remove(left);
                let size = round.skin.as_ref().unwrap().size().clone();
                // The forehead is not in any of them, so that something is named.
                kept.push(freshet::protocol::zone::Zone::Forehead);
                let skin = Territory::new(kept, size, &Protocol::default()).ok();
                Played { skin, ..round.clone() }
            };
            rounds.iter().map(less).collect()
        };
        let (one, other) =
            (journal(1, &happenings(&rounds)), journal(1, &happenings(&fewer(&rounds))));
        let at = START.after(Span::minutes(minutes));
        let (better, worse) =
            (condition(scenario, START, &one, at), condition(scenario, START, &other, at));
        prop_assert!(no_worse(&better, &worse, scenario.brief().picture));
    }

    /// The healthy side reads as it should, within the scatter, and no reader's noise is exceeded.
    #[test]
    fn the_other_side_stays_healthy(
        scenario in scenario(), happenings in anything(), now in moment(),
    ) {
        let seen = condition(scenario, START, &journal(1, &happenings), now);
        let healthy = scenario.brief().patient.refill;
        let off = seen.opposite.as_millis().abs_diff(healthy.as_millis());
        prop_assert!(off <= simulation::SCATTER.as_millis());
        if seen.area.is_zero() && seen.colour == Colour::Normal {
            let off = seen.affected.as_millis().abs_diff(seen.opposite.as_millis());
            prop_assert!(off <= Protocol::default().refill_noise.as_millis());
        }
    }

    /// A dose of adrenaline more never ends worse.
    #[test]
    fn more_adrenaline_never_ends_worse(
        doses in vec((0_u64..40, 0_u64..700), 0..4), one in (0_u64..40, 0_u64..700),
        minutes in 0_u64..90, look in look(),
    ) {
        let round = Played {
            skin: None,
            strength: 500,
            points: vec![Point { volume: 100, skipped: false }; 8],
            waits: 60,
        };
        let play = |doses: &[(u64, u64)]| {
            let mut doses = doses.to_vec();
            doses.sort_unstable();
            let mut all = happenings(std::slice::from_ref(&round));
            all.push((this(Event::Round(Act::Look(look.clone()))), 0));
            all.extend(happenings(&[Played { waits: 0, ..round.clone() }]));
            let mut passed = 0;
            for (at, volume) in doses {
                let act = anaphylaxis::Act::Adrenaline(Volume::ul(volume));
                let step = i64::try_from(at - passed).unwrap() * 60_000;
                all.push((this(Event::Anaphylaxis(act)), step));
                passed = at;
            }
            let journal = journal(1, &all);
            let at = START.after(Span::minutes(64 + minutes));
            condition(Scenario::Anaphylaxis, START, &journal, at)
        };
        let (fewer, mut more) = (play(&doses), doses.clone());
        more.push(one);
        let more = play(&more);
        prop_assert!(more.reaction.iter().all(|sign| fewer.reaction.contains(sign)));
        prop_assert!(more.flags.iter().all(|flag| fewer.flags.contains(flag)));
    }

    /// A history in any order has the same progress, but for those begun at one moment.
    #[test]
    fn progress_knows_no_order(rounds in vec(vec(played(), 0..3), 0..4), turn in any::<Index>()) {
        let told: Vec<Debrief> = (0..)
            .zip(&rounds)
            .map(|(days, rounds)| {
                let journal = journal(1, &happenings(rounds));
                let told = debrief(Scenario::Lip, START, &journal, end_of(&journal));
                Debrief { start: START.after(Span::days(days)), ..told }
            })
            .collect();
        let mut turned = told.clone();
        if !turned.is_empty() {
            turned.rotate_left(turn.index(told.len()));
        }
        prop_assert_eq!(progress(&told), progress(&turned));
    }
}
