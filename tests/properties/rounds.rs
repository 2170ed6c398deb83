//! The treatment under any order of acts and any clock.

use freshet::care::allergy::Urgency;
use freshet::care::dose::RoundPlan;
use freshet::care::perfusion::{State, next};
use freshet::care::refill::{Colour, Person, Refill};
use freshet::care::rounds::{Act, End, HandOver, Look, Pain, Phase, Point, SkipReason, Treatment};
use freshet::measure::{Moment, Span, Strength, Units, Volume};
use freshet::plane::Spot;
use freshet::protocol::Protocol;
use proptest::prelude::*;

fn look() -> impl Strategy<Value = Look> {
    let colour = prop_oneof![
        Just(Colour::Normal),
        Just(Colour::Pale),
        Just(Colour::Mottled),
        Just(Colour::Blue),
        Just(Colour::Black)
    ];
    let refill = proptest::option::of((0_u64..9_000, proptest::option::of(0_u64..5_000)));
    (refill, colour, 0_u8..=10).prop_map(|(refill, colour, pain)| Look {
        refill: refill.map(|(affected, opposite)| Refill {
            affected: Span::millis(affected),
            opposite: opposite.map(Span::millis),
        }),
        ..Look::of(colour, Pain::new(pain).unwrap())
    })
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        2 => (100_u64..1_500, 10_u64..300, 0_u32..20).prop_map(|(strength, bolus, points)| {
            Act::Begin(RoundPlan {
                strength: Strength::per_ml(strength),
                bolus: Volume::ul(bolus),
                points,
            })
        }),
        8 => (0_u32..22, 1_u64..300)
            .prop_map(|(point, volume)| Act::Inject { point, volume: Volume::ul(volume) }),
        1 => proptest::option::of((-9_000_i32..9_000, -9_000_i32..9_000).prop_map(Spot::from))
            .prop_map(|spot| Act::Add { spot }),
        2 => (0_u32..22).prop_map(|point| Act::Skip { point, reason: SkipReason::Perfused }),
        2 => Just(Act::Finish),
        2 => look().prop_map(Act::Look),
        1 => prop_oneof![
            Just(Act::End(End::Done)),
            Just(Act::End(End::HandedOver(HandOver::Other)))
        ],
    ]
}

proptest! {
    /// Whatever comes in whatever order: no dose is lost or counted twice, what was refused changes
    /// nothing, and no time is negative.
    #[test]
    fn any_order_and_any_clock(
        acts in proptest::collection::vec((act(), -7_200_000_i64..7_200_000), 0..80),
    ) {
        let protocol = Protocol::default();
        let mut treatment = Treatment::new(Urgency::Urgent);
        let mut at = Moment::from_millis(1_700_000_000_000);
        let mut given = Units::ZERO;
        for (act, step) in acts {
            // The clock may also go back.
            at = Moment::from_millis(at.millis() + step);
            let before = treatment.clone();
            let strength = before.rounds().last().map(|round| round.plan.strength);
            if treatment.apply(at, &act).is_err() {
                prop_assert_eq!(&treatment, &before);
            } else if let (Act::Inject { volume, .. }, Some(strength)) = (&act, strength) {
                given += strength.units_in(*volume);
            }
            prop_assert_eq!(treatment.units(), given);
            if let Phase::Watching { due } = treatment.phase(at, &protocol) {
                prop_assert!(due > at);
            }
            let states: Vec<State> =
                treatment.looks().iter().map(|(_, look)| State::of(look, None)).collect();
            let _ = next(&treatment, &[], &states, Person::default(), &protocol);
            if let Some(round) = treatment.rounds().last() {
                let next = round.next().map(|n| round.points[n as usize - 1]);
                prop_assert!(next.is_none_or(|point| point == Point::Open));
                // Nothing planned gets lost by what is added, and each added point has its place.
                prop_assert_eq!(round.points.len(), round.plan.points as usize + round.added.len());
                for (number, spot) in (round.plan.points + 1..).zip(&round.added) {
                    prop_assert_eq!(round.spot(number), *spot);
                }
            }
        }
    }

    /// An ended treatment takes nothing more.
    #[test]
    fn over_is_over(acts in proptest::collection::vec(act(), 0..20), later in act()) {
        let at = Moment::from_millis(0);
        let mut treatment = Treatment::new(Urgency::Planned);
        for act in &acts {
            let _ = treatment.apply(at, act);
        }
        let _ = treatment.apply(at, &Act::End(End::Stopped));
        prop_assert!(treatment.end().is_some());
        prop_assert!(treatment.apply(at, &later).is_err());
    }

    /// The look is due exactly one interval after the round, whenever it is asked.
    #[test]
    fn due_is_a_moment(finished in 0_i64..4_000_000_000_000, asked in -90_000_000_i64..90_000_000) {
        let protocol = Protocol::default();
        let finished = Moment::from_millis(finished);
        let mut treatment = Treatment::new(Urgency::Urgent);
        let plan =
            RoundPlan { strength: Strength::per_ml(500), bolus: Volume::ul(100), points: 1 };
        treatment.apply(finished, &Act::Begin(plan)).unwrap();
        treatment.apply(finished, &Act::Finish).unwrap();
        let due = finished.after(protocol.round_interval);
        let now = Moment::from_millis(finished.millis() + asked);
        let expected = if now < due { Phase::Watching { due } } else { Phase::Due { due } };
        prop_assert_eq!(treatment.phase(now, &protocol), expected);
    }
}
