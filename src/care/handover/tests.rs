use super::*;
use crate::care::adjunct::Choice;
use crate::care::anaphylaxis;
use crate::care::dose::RoundPlan;
use crate::care::perfusion::Change;
use crate::care::refill::{Colour, Refill};
use crate::care::rounds::{Act, Look, Pain, Sign};
use crate::care::situation;
use crate::measure::{Span, Strength, Volume};
use crate::protocol::adjunct::Adjunct;

const PLAN: RoundPlan =
    RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 2 };

fn at(minutes: u64) -> Moment {
    Moment::from_millis(0).after(Span::minutes(minutes))
}

fn look(affected: u64, colour: Colour, pain: u8) -> Look {
    let refill = Refill { affected: Span::millis(affected), opposite: Some(Span::millis(1_500)) };
    Look { refill: Some(refill), ..Look::of(colour, Pain::new(pain).unwrap()) }
}

/// Two rounds an hour apart, a look after each.
fn treated() -> Treatment {
    let mut treatment = Treatment::new(Urgency::Urgent);
    for (start, look) in [(10, look(4_000, Colour::Mottled, 6)), (80, look(2_500, Colour::Pale, 2))]
    {
        treatment.apply(at(start), &Act::Begin(PLAN)).unwrap();
        for point in 1..=2 {
            let act = Act::Inject { point, volume: PLAN.bolus };
            treatment.apply(at(start), &act).unwrap();
        }
        treatment.apply(at(start + 5), &Act::Finish).unwrap();
        treatment.apply(at(start + 65), &Act::Look(look)).unwrap();
    }
    treatment
}

fn known<'a>(treatment: &'a Treatment, reaction: &'a Reaction) -> Known<'a> {
    Known {
        reason: None,
        flags: &[],
        urgency: Some(Urgency::Urgent),
        findings: None,
        zones: &[],
        area: None,
        answers: None,
        test: None,
        batches: Vec::new(),
        treatment,
        states: treatment.looks().iter().map(|(_, look)| State::of(look, None)).collect(),
        reaction,
        besides: &[],
    }
}

#[test]
fn the_parts_are_in_the_order_of_the_report() {
    let (treatment, reaction) = (treated(), Reaction::default());
    let findings = Findings {
        signs: vec![situation::Sign::Pallor],
        filler: Filler::Hyaluronic,
        onset: Some(at(0)),
        ..Findings::default()
    };
    let besides = [Chosen { at: at(3), adjunct: Adjunct::Warmth, choice: Choice::Given(None) }];
    let known = Known {
        reason: Some(HandOver::NoImprovement),
        findings: Some(&findings),
        zones: &[Zone::UpperLip],
        area: Some(Area::cm2(6)),
        besides: &besides,
        batches: vec![vec!["DEMO-7".into()]],
        ..known(&treatment, &reaction)
    };
    let sheet = known.sheet(at(150), &Protocol::default());
    let situation = [
        Fact::Reason(HandOver::NoImprovement),
        Fact::Way(Urgency::Urgent),
        Fact::Onset(Some((at(0), Span::minutes(150)))),
        Fact::Zones(vec![Zone::UpperLip]),
        Fact::Area(Area::cm2(6)),
    ];
    assert_eq!(sheet.situation, situation);
    let round = |number, begun: u64| Fact::Round {
        number,
        begun: at(begun),
        finished: Some(at(begun + 5)),
        strength: PLAN.strength,
        volume: Volume::ul(200),
        units: Units::whole(100),
        batches: if number == 1 { vec!["DEMO-7".into()] } else { Vec::new() },
    };
    let background = [
        Fact::Filler(Filler::Hyaluronic),
        Fact::Allergy(None),
        round(1, 10),
        round(2, 80),
        Fact::InAll { rounds: 2, units: Units::whole(200), volume: Volume::ul(400) },
        Fact::Besides(besides[0]),
    ];
    assert_eq!(sheet.background, background);
    let [found, Fact::Look { at: first, .. }, Fact::Look { at: last, .. }, rest @ ..] =
        sheet.assessment.as_slice()
    else {
        panic!("{:?}", sheet.assessment)
    };
    assert_eq!(*found, Fact::Found { signs: vec![situation::Sign::Pallor], refill: None });
    assert_eq!((*first, *last), (at(75), at(145)));
    assert_eq!(
        *rest,
        [Fact::Trend(Change::Better), Fact::Wanting(vec![Sign::Refill, Sign::Colour, Sign::Pain]),]
    );
    assert_eq!(sheet.recommendation, [Ask::GoOn, Ask::Ultrasound, Ask::SkinSpecialist]);
}

#[test]
fn what_is_not_known_is_said() {
    let (treatment, reaction) = (Treatment::new(Urgency::Urgent), Reaction::default());
    let sheet = known(&treatment, &reaction).sheet(at(0), &Protocol::default());
    assert!(sheet.situation.contains(&Fact::Onset(None)));
    let background = [Fact::Filler(Filler::Unknown), Fact::Allergy(None), Fact::NoEnzyme];
    assert_eq!(sheet.background, background);
    assert_eq!(sheet.assessment, [Fact::NotLooked]);
    assert_eq!(sheet.recommendation, [Ask::TakeOver]);
}

#[test]
fn sight_has_moments_and_no_time_left() {
    let (treatment, reaction) = (treated(), Reaction::default());
    let flags = [
        Noticed { flag: RedFlag::Sight, at: at(90) },
        Noticed { flag: RedFlag::Stroke, at: at(95) },
    ];
    assert_eq!(known(&treatment, &reaction).sight(), None);
    let known = Known { flags: &flags, ..known(&treatment, &reaction) };
    let sheet = known.sight().unwrap();
    assert_eq!((sheet.noticed, sheet.also.as_slice()), (at(90), &flags[1..]));
    assert_eq!(sheet.units, Units::whole(200));
    assert_eq!((sheet.reaction.clone(), sheet.adrenaline.as_slice()), (None, &[][..]));
    // Nothing that could be shown as a countdown.
    assert!(!format!("{sheet:?}").contains("Span"), "{sheet:?}");
    let asks = [
        Ask::Ambulance,
        Ask::EyesAtOnce,
        Ask::StrokeTeam,
        Ask::LookForStroke,
        Ask::NotBehindTheEye,
    ];
    assert_eq!(sheet.asks, asks, "each sign is asked for, once");
}

#[test]
fn a_reaction_is_told_with_its_doses() {
    let treatment = treated();
    let mut reaction = Reaction::default();
    reaction.apply(at(12), &anaphylaxis::Act::Adrenaline(Volume::ul(500)));
    let told = |reaction: &Reaction| {
        let sheet = known(&treatment, reaction).sheet(at(20), &Protocol::default());
        let dose = Fact::Adrenaline { at: at(12), volume: Volume::ul(500) };
        assert!(sheet.background.contains(&dose));
        (sheet.situation[0].clone(), sheet.recommendation)
    };
    let (fact, asks) = told(&reaction);
    assert_eq!(fact, Fact::Reaction { started: at(12), active: true, better: false });
    assert_eq!(asks, [Ask::Ambulance, Ask::WatchReaction]);
    reaction.apply(at(18), &anaphylaxis::Act::Better);
    reaction.apply(at(19), &anaphylaxis::Act::Over);
    let (fact, asks) = told(&reaction);
    assert_eq!(fact, Fact::Reaction { started: at(12), active: false, better: true });
    assert_eq!(asks, [Ask::WatchReaction]);
}
