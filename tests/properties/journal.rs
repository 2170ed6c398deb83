//! The journal: what was written is read, and a change shows.

use freshet::care::rounds::{Act, SkipReason};
use freshet::case::{
    Case, CaseId, Damage, Entry, Event, Fault, Journal, Reference, SCHEMA, StrikeReason,
};
use freshet::measure::{Moment, Volume};
use freshet::protocol::Protocol;
use proptest::prelude::*;
use proptest::sample::Index;

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        ".{0,40}".prop_map(Event::Note),
        (1_u32..50, 1_u64..300).prop_map(|(point, volume)| {
            Event::Round(Act::Inject { point, volume: Volume::ul(volume) })
        }),
        (1_u32..50)
            .prop_map(|point| Event::Round(Act::Skip { point, reason: SkipReason::Patient })),
        (-9_000_i64..9_000).prop_map(Event::ClockJumped),
        Just(Event::Ready),
    ]
}

fn journal() -> impl Strategy<Value = Journal> {
    let events = proptest::collection::vec((event(), -60_000_i64..600_000), 0..30);
    (any::<u128>(), events).prop_map(|(id, events)| {
        let mut journal = Journal::new(CaseId::from_random(id));
        let mut at = Moment::from_millis(1_700_000_000_000);
        let opened = Event::Opened {
            reference: Reference::new("Demo 1").unwrap(),
            protocol: Box::new(Protocol::default()),
        };
        journal.append(at, 60, opened);
        for (event, step) in events {
            at = Moment::from_millis(at.millis() + step);
            journal.append(at, 60, event);
        }
        journal
    })
}

proptest! {
    /// Each line reads back to the very same entry.
    #[test]
    fn lines_read_back(journal in journal()) {
        for entry in journal.entries() {
            let read = Entry::read(&entry.line());
            prop_assert_eq!(read.as_ref(), Ok(entry));
        }
    }

    /// In any order and with repeats, the entries make the same journal.
    #[test]
    fn any_order_makes_the_same_journal(journal in journal(), picks in proptest::collection::vec(any::<Index>(), 0..60)) {
        let entries = journal.entries();
        let mut shuffled: Vec<Entry> = picks.iter().map(|pick| pick.get(entries).clone()).collect();
        shuffled.extend(entries.iter().rev().cloned());
        let (again, faults) = Journal::from_entries(journal.case(), shuffled);
        prop_assert!(faults.is_empty());
        prop_assert_eq!(again, journal);
    }

    /// A lost entry is missed, by its place, and the rest is kept.
    #[test]
    fn a_lost_entry_is_missed(journal in journal(), pick in any::<Index>()) {
        let place = pick.index(journal.entries().len());
        let mut entries = journal.entries().to_vec();
        let lost = entries.remove(place);
        let last = place == entries.len();
        let (rest, faults) = Journal::from_entries(journal.case(), entries.clone());
        prop_assert_eq!(rest.entries(), &entries[..]);
        prop_assert_eq!(faults.contains(&Fault::Missing { seq: lost.seq() }), !last);
    }

    /// Any changed character of a line shows.
    #[test]
    fn a_changed_line_shows(journal in journal(), pick in any::<Index>(), at in any::<Index>(), with in any::<char>()) {
        let line = pick.get(journal.entries()).line();
        let mut characters: Vec<char> = line.chars().collect();
        let place = at.index(characters.len());
        prop_assume!(characters[place] != with);
        characters[place] = with;
        let changed: String = characters.into_iter().collect();
        // White space at the very end is no part of a line, nor is the case of a digest's letters.
        prop_assume!(changed.trim_end() != line && !changed.eq_ignore_ascii_case(&line));
        prop_assert!(Entry::read(&changed).is_err());
    }

    /// No text is taken for an entry by mistake.
    #[test]
    fn any_text_is_refused(text in ".{0,200}") {
        prop_assert!(Entry::read(&text).is_err());
    }

    /// Striking an injection out takes just its dose away; striking nothing changes nothing.
    #[test]
    fn striking_out_takes_one_away(points in 1_u32..30, pick in any::<Index>()) {
        use freshet::care::dose::RoundPlan;
        use freshet::measure::Strength;
        let at = Moment::from_millis(0);
        let mut journal = Journal::new(CaseId::from_random(1));
        let plan = RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points };
        journal.append(at, 0, Event::Round(Act::Begin(plan)));
        let injected: Vec<_> = (1..=points)
            .map(|point| {
                let act = Act::Inject { point, volume: plan.bolus };
                journal.append(at, 0, Event::Round(act)).id()
            })
            .collect();
        let before = Case::of(&journal).treatment.units();
        prop_assert_eq!(before, plan.units());
        let entry = *pick.get(&injected);
        journal.append(at, 0, Event::Struck { entry, reason: StrikeReason::Slip });
        let case = Case::of(&journal);
        prop_assert_eq!(case.treatment.units(), before.saturating_sub(plan.units_per_point()));
        prop_assert!(case.struck.contains(&entry));
        prop_assert_eq!(case.treatment.rounds()[0].next().is_some(), true);
    }
}

#[test]
fn a_later_form_is_named_and_not_read() {
    let mut journal = Journal::new(CaseId::from_random(7));
    let entry = journal.append(Moment::from_millis(0), 0, Event::Ready).line();
    let (_, body) = entry.split_once(' ').unwrap();
    let later =
        body.replace(&format!("\"schema\":{SCHEMA}"), &format!("\"schema\":{}", SCHEMA + 1));
    let line = format!("{} {later}", freshet::measure::Hash::of(later.as_bytes()));
    assert_eq!(Entry::read(&line), Err(Damage::Newer(SCHEMA + 1)));
}

/// A line as the first form wrote it is read, and keeps the digest of its own text.
#[test]
fn the_first_form_is_read() {
    let text = r#"{"schema":1,"case":"00000000000000000000000000000007","seq":0,"at":0,"zone":0,"prev":null,"event":{"Round":{"Look":{"refill":{"affected":4000,"opposite":null},"colour":"Pale","pain":3,"red_flags":[]}}}}"#;
    let line = format!("{} {text}", freshet::measure::Hash::of(text.as_bytes()));
    let entry = Entry::read(&line).unwrap();
    assert_eq!(entry.line(), line);
    assert!(matches!(entry.event(), Event::Round(Act::Look(look)) if look.readings.is_empty()));
}

/// Ten thousand events fold within a time that nobody notices, even unoptimised.
#[test]
fn thousands_of_events_fold_quickly() {
    let mut journal = Journal::new(CaseId::from_random(9));
    for n in 0..10_000 {
        journal.append(Moment::from_millis(n), 0, Event::Note(String::from("looked again")));
    }
    let begun = std::time::Instant::now();
    let case = Case::of(&journal);
    assert_eq!(case.last, Moment::from_millis(9_999));
    assert!(begun.elapsed().as_millis() < 200, "{:?}", begun.elapsed());
}

/// A vial is opened by the first diluent that goes into it: not by planning, not by each stroke.
#[test]
fn a_vial_is_opened_once() {
    use freshet::care::dilution::{Ask, Method, Movement, Syringe, Vial, plans};
    use freshet::measure::{Strength, Units};
    let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
    let vial = Vial { units: Units::whole(1_500), holds: Volume::ml(3) };
    let ask = Ask::dose(vial, None, Strength::per_ml(500), Units::whole(1_500), syringe);
    let whole =
        |plan: &freshet::care::dilution::Plan| matches!(plan.method(), Method::WholeVial { .. });
    let plan = plans(&ask).unwrap().into_iter().find(whole).unwrap();
    let strokes = plan.movements().iter().filter(|m| matches!(m, Movement::Dissolve { .. }));
    assert_eq!(strokes.count(), 3);
    let at = Moment::from_millis(0);
    let mut journal = Journal::new(CaseId::from_random(3));
    journal.append(at, 0, Event::Preparation(Box::new(plan.clone())));
    assert_eq!(Case::of(&journal).vials_opened, 0);
    for movement in 0..u32::try_from(plan.movements().len()).unwrap() {
        journal.append(at, 0, Event::Drew(movement));
        journal.append(at, 0, Event::Drew(movement));
    }
    assert_eq!(Case::of(&journal).vials_opened, 1);
}

/// Not ready and going on leads on like ready, but is never told as it.
#[test]
fn not_ready_goes_on_with_a_reason() {
    use freshet::care::allergy::{Answers, Urgency};
    use freshet::case::{Clearance, Overridden};
    let at = Moment::from_millis(0);
    let mut journal = Journal::new(CaseId::from_random(6));
    journal.append(at, 0, Event::Way { urgency: Urgency::Urgent, aim: None });
    journal.append(at, 0, Event::Asked(Answers::default()));
    assert_eq!(Case::of(&journal).clearance(), Clearance::Wanting);
    let reason = String::from("nobody can bring any in time");
    journal.append(at, 0, Event::Override { what: Overridden::Readiness, reason });
    let case = Case::of(&journal);
    assert_eq!(case.clearance(), Clearance::Cleared);
    assert!(!case.ready);
}

/// A line from outside may claim any place: what is missing before it is told as far as anybody reads,
/// and takes no more room than that.
#[test]
fn a_place_beyond_all_others_takes_no_room() {
    let mut journal = Journal::new(CaseId::from_random(7));
    let first = journal.append(Moment::from_millis(1), 0, Event::Ready).clone();
    let far = Entry::seal(freshet::case::Body { seq: u32::MAX, ..first.body().clone() });
    let (journal, faults) = Journal::from_entries(first.case(), vec![far.clone(), first]);
    assert_eq!(journal.entries().len(), 2);
    assert!((2..200).contains(&faults.len()) && faults[0] == Fault::Missing { seq: 1 });
    let mut on = journal;
    on.append(Moment::from_millis(2), 0, Event::Ready);
    assert_eq!(on.entries().len(), 3);
}
