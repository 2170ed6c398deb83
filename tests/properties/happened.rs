//! Cases in which anything happens, in any order and by any clock.

use freshet::care::aftercare::{Review, Seen};
use freshet::care::allergy::{Answer, Answers, Urgency};
use freshet::care::anaphylaxis::{self, Sign as Reacts};
use freshet::care::dilution::{Ask, Plan, Syringe, Vial as Powder, plans};
use freshet::care::dose::RoundPlan;
use freshet::care::refill::{Colour, Refill};
use freshet::care::rounds::{Act, End, Function, HandOver, Look, Pain, SkipReason, Temperature};
use freshet::care::situation::{Filler, Findings, RedFlag, Sign};
use freshet::care::territory::{Ground, Outlined, Photo, Size, Territory};
use freshet::care::{adjunct, skin_test};
use freshet::case::{CaseId, Event, Journal, Overridden, Reference, StrikeReason};
use freshet::kit::Vial;
use freshet::measure::{Area, Date, Hash, Moment, Span, Strength, Units, Volume};
use freshet::plane::{Extent, Grid, Lattice, Spot, lay, sample};
use freshet::protocol::adjunct::{Adjunct, Concern, Milligrams};
use freshet::protocol::diluent::Diluent;
use freshet::protocol::face::View;
use freshet::protocol::zone::Zone;
use freshet::protocol::{Id, Protocol, Quantity, Region};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use std::sync::LazyLock;

/// 26 November 2026, 10:00 UTC.
pub const START: Moment = Moment::from_millis(1_795_687_200_000);

/// Something that happens.
#[derive(Clone, Debug)]
pub enum What {
    /// An event.
    This(Event),
    /// An earlier entry is struck out.
    Strike(Index),
}

/// What happens, and by how many milliseconds the clock shows more than before; less if negative.
pub type Happening = (What, i64);

/// The journal of what happened, under a case's name.
pub fn journal(id: u128, happenings: &[Happening]) -> Journal {
    let mut journal = Journal::new(CaseId::from_random(id));
    let mut at = START;
    let opened =
        Event::Opened { reference: Reference::new("Demo").unwrap(), protocol: Box::default() };
    journal.append(at, 0, opened);
    for (what, step) in happenings {
        at = Moment::from_millis(at.millis().saturating_add(*step));
        let event = match what {
            What::This(event) => event.clone(),
            What::Strike(index) => Event::Struck {
                entry: index.get(journal.entries()).id(),
                reason: StrikeReason::Slip,
            },
        };
        journal.append(at, 0, event);
    }
    journal
}

/// Anything at all, in any order.
pub fn anything() -> impl Strategy<Value = Vec<Happening>> {
    let what = prop_oneof![
        8 => event().prop_map(What::This),
        14 => round().prop_map(|act| What::This(Event::Round(act))),
        3 => any::<Index>().prop_map(What::Strike),
    ];
    vec((what, step()), 0..70)
}

fn step() -> impl Strategy<Value = i64> {
    prop_oneof![
        10 => 0..600_000_i64,
        4 => 1_800_000..5_400_000_i64,
        2 => -3_600_000..0_i64,
        1 => any::<i32>().prop_map(|millis| i64::from(millis) * 1_000),
    ]
}

/// A look, whatever was seen.
pub fn look() -> impl Strategy<Value = Look> {
    let colours = [Colour::Normal, Colour::Pale, Colour::Mottled, Colour::Blue, Colour::Black];
    let felt = (
        option::of(select(&[Temperature::Warm, Temperature::Cool][..])),
        option::of(select(&[Function::Normal, Function::Impaired][..])),
    );
    let refill = option::of((0_u64..9_000, option::of(0_u64..5_000)));
    (refill, select(colours.to_vec()), 0_u8..=10, flags(), felt).prop_map(
        |(refill, colour, pain, red_flags, (temperature, function))| Look {
            refill: refill.map(|(affected, opposite)| Refill {
                affected: Span::millis(affected),
                opposite: opposite.map(Span::millis),
            }),
            red_flags,
            temperature,
            function,
            ..Look::of(colour, Pain::new(pain).unwrap())
        },
    )
}

fn flag() -> impl Strategy<Value = RedFlag> {
    select(&[RedFlag::Sight, RedFlag::Stroke, RedFlag::Airway][..])
}

fn flags() -> impl Strategy<Value = Vec<RedFlag>> {
    prop_oneof![6 => Just(vec![]), 1 => vec(flag(), 1..3)]
}

/// An outline of 7 cm² or so, and the grid on it.
static DRAWN: LazyLock<(Outlined, Grid)> = LazyLock::new(|| {
    let outline = sample::wavy(40, 30.0);
    let protocol = Protocol::default();
    let grid = lay(&outline, protocol.lattice, protocol.spacing, protocol.margin);
    (Outlined { ground: Ground::Drawing { view: View::Front, measured: None }, outline }, grid)
});

/// Solutions for a few doses.
static PLANS: LazyLock<Vec<Plan>> = LazyLock::new(|| {
    let syringe = Syringe::new(Volume::ml(1), Volume::ul(10)).unwrap();
    let powder = Powder { units: Units::whole(1_500), holds: Volume::ml(3) };
    [(500, 400), (500, 900), (150, 150), (1_500, 3_000)]
        .into_iter()
        .map(|(strength, dose)| {
            let strength = Strength::per_ml(strength);
            let ask = Ask::dose(powder, Some(4), strength, Units::whole(dose), syringe);
            plans(&ask).unwrap().remove(0)
        })
        .collect()
});

/// A solution.
pub fn plan() -> impl Strategy<Value = Plan> {
    (0..PLANS.len()).prop_map(|which| PLANS[which].clone())
}

fn end() -> impl Strategy<Value = End> {
    let reasons = [
        HandOver::Sight,
        HandOver::Reaction,
        HandOver::NoImprovement,
        HandOver::NoEnzyme,
        HandOver::Necrosis,
        HandOver::Other,
    ];
    prop_oneof![
        2 => Just(End::Done),
        3 => select(reasons.to_vec()).prop_map(End::HandedOver),
        1 => Just(End::Stopped),
    ]
}

/// Something of the rounds.
pub fn round() -> impl Strategy<Value = Act> {
    let plan = |(strength, bolus, points)| RoundPlan {
        strength: Strength::per_ml(strength),
        bolus: Volume::ul(bolus),
        points,
    };
    let planned = (0_u64..1_600, 10_u64..300, 0_u32..20).prop_map(plan);
    let on = (200_u64..1_600, 10_u64..300).prop_map(move |(strength, bolus)| {
        let points = u32::try_from(DRAWN.1.spots().len()).unwrap();
        Act::BeginOn(plan((strength, bolus, points)), Box::new(DRAWN.1.clone()))
    });
    let spot = option::of((-9_000_i32..9_000, -9_000_i32..9_000).prop_map(Spot::from));
    let reason = select(&[SkipReason::Perfused, SkipReason::Unsafe, SkipReason::RanOut][..]);
    prop_oneof![
        4 => planned.prop_map(Act::Begin),
        1 => on,
        22 => (0_u32..24, 0_u64..300)
            .prop_map(|(point, volume)| Act::Inject { point, volume: Volume::ul(volume) }),
        3 => spot.prop_map(|spot| Act::Add { spot }),
        3 => (0_u32..24, reason).prop_map(|(point, reason)| Act::Skip { point, reason }),
        4 => Just(Act::Finish),
        4 => look().prop_map(Act::Look),
        1 => end().prop_map(Act::End),
    ]
}

/// The skin, told by zones and size or drawn round.
pub fn territory() -> impl Strategy<Value = Territory> {
    let zones = vec(select(&Zone::ALL[..]), 0..4);
    let size = prop_oneof![
        3 => (1_u64..60_000).prop_map(|mm2| Size::Typed(Area::mm2(mm2))),
        1 => Just(Size::Outlined(Box::new(DRAWN.0.clone()))),
        1 => Just(Size::Usual),
    ];
    (zones, size).prop_filter_map("no skin", |(zones, size)| {
        Territory::new(zones, size, &Protocol::default()).ok()
    })
}

fn findings() -> impl Strategy<Value = Findings> {
    let signs = [Sign::Pallor, Sign::Mottling, Sign::Blue, Sign::Pain, Sign::Blackening];
    let filler = select(&[Filler::Hyaluronic, Filler::Other, Filler::Unknown][..]);
    let onset = option::of(any::<i32>());
    (flags(), vec(select(signs.to_vec()), 0..3), filler, onset).prop_map(
        |(red_flags, signs, filler, onset)| Findings {
            red_flags,
            signs,
            filler,
            onset: onset.map(|millis| START.on_clock_set_by(i64::from(millis))),
            ..Findings::default()
        },
    )
}

fn reaction() -> impl Strategy<Value = anaphylaxis::Act> {
    use anaphylaxis::Act;
    prop_oneof![
        Just(Act::Signs(vec![Reacts::Skin, Reacts::Breathing])),
        Just(Act::Called),
        (0_u64..900).prop_map(|volume| Act::Adrenaline(Volume::ul(volume))),
        Just(Act::Positioned),
        Just(Act::Fluids),
        Just(Act::Better),
        Just(Act::NotBetter),
        Just(Act::Over),
    ]
}

fn besides() -> impl Strategy<Value = adjunct::Act> {
    let choice = prop_oneof![
        3 => option::of((0_u32..900).prop_map(Milligrams)).prop_map(adjunct::Choice::Given),
        1 => Just(adjunct::Choice::Stopped),
        1 => Just(adjunct::Choice::Declined),
    ];
    let answer = select(&[Answer::No, Answer::Yes, Answer::Unknown][..]);
    let asked = vec((select(&Concern::ALL[..]), answer), 0..14).prop_map(|answers| {
        let mut asked = adjunct::Asked::default();
        for (concern, answer) in answers {
            asked.put(concern, answer);
        }
        adjunct::Act::Asked(asked)
    });
    let chose = (select(&Adjunct::ALL[..]), choice)
        .prop_map(|(adjunct, choice)| adjunct::Act::Chose(adjunct, choice));
    prop_oneof![3 => chose, 1 => asked]
}

fn vial() -> impl Strategy<Value = Vial> {
    let batch = select(&["", "H24-117", "H22-048", "X"][..]);
    (0_u32..4, batch, option::of(2024_i16..2030)).prop_map(|(number, batch, year)| Vial {
        number,
        units: Units::whole(1_500),
        batch: batch.to_owned(),
        expiry: year.and_then(|year| Date::new(year, 6, 30)),
        from: None,
        solution: None,
    })
}

fn test() -> impl Strategy<Value = skin_test::Act> {
    use freshet::measure::Length;
    let placed = option::of(0_u64..200).prop_map(|bleb| {
        skin_test::Act::Place(skin_test::Placed {
            dose: Units::whole(15),
            volume: Volume::ul(50),
            bleb: bleb.map(Length::tenths),
        })
    });
    let seen = (0_u64..200, any::<[bool; 4]>()).prop_map(
        |(wheal, [flare, itch, pseudopods, systemic])| {
            let wheal = Length::tenths(wheal);
            skin_test::Act::Read(skin_test::Seen { wheal, flare, itch, pseudopods, systemic })
        },
    );
    prop_oneof![placed, seen]
}

fn region() -> impl Strategy<Value = Event> {
    select(&[Region::Uk, Region::Australia][..]).prop_map(Event::Region)
}

/// What leaves nothing behind once it is struck out, whatever came after it.
pub fn taken_back() -> impl Strategy<Value = Event> {
    prop_oneof![flag().prop_map(Event::Noticed), besides().prop_map(Event::Adjunct), region(),]
}

/// What is chosen for the case and does not give or find anything.
fn chosen() -> impl Strategy<Value = Event> {
    let diluents =
        [Diluent::Saline, Diluent::BacteriostaticSaline, Diluent::Water, Diluent::Lidocaine];
    let what = [Overridden::Situation, Overridden::Expired, Overridden::Proposal];
    let photo = (any::<u8>(), 1_u32..4_000, 1_u32..4_000).prop_map(|(seed, width, height)| {
        Event::Photo(Photo { name: Hash::of(&[seed]), extent: Extent { width, height } })
    });
    prop_oneof![
        region(),
        select(diluents.to_vec()).prop_map(Event::Diluent),
        select(&[Lattice::Square, Lattice::Hexagonal][..]).prop_map(Event::Lattice),
        "[A-Z]{1,9}".prop_map(|name| Event::Renamed(Reference::new(&name).unwrap())),
        photo,
        (select(what.to_vec()), "[a-z ]{0,12}")
            .prop_map(|(what, reason)| Event::Override { what, reason }),
    ]
}

/// What happens after the treatment.
fn followed() -> impl Strategy<Value = Event> {
    let seen = select(&[Seen::InPerson, Seen::Remotely][..]);
    let review = (seen, look()).prop_map(|(seen, look)| {
        Event::Review(Box::new(Review { seen, look, damage: Vec::new(), corrected: None }))
    });
    let agreed =
        any::<i32>().prop_map(|millis| Event::Appointed(START.on_clock_set_by(i64::from(millis))));
    prop_oneof![3 => review, 1 => agreed, 2 => taken_up()]
}

/// A treatment taken up again.
pub fn taken_up() -> impl Strategy<Value = Event> {
    look().prop_map(|look| Event::TakenUp { look: Box::new(look), reason: "demo".into() })
}

/// Anything but the rounds.
pub fn event() -> impl Strategy<Value = Event> {
    let way = select(&[Urgency::Urgent, Urgency::Planned][..]);
    prop_oneof![
        2 => findings().prop_map(|found| Event::Found(Box::new(found))),
        2 => way.prop_map(|urgency| Event::Way { urgency, aim: None }),
        1 => Just(Event::Asked(Answers::default())),
        1 => Just(Event::Ready),
        1 => test().prop_map(Event::SkinTest),
        3 => territory().prop_map(Event::Territory),
        1 => (1_u64..3_000, 1_u64..900).prop_map(|(volume, dose)| Event::Filler {
            volume: Volume::ul(volume),
            dose: Units::whole(dose),
        }),
        1 => (10_u64..120)
            .prop_map(|min| Event::Set(Id::RoundInterval, Quantity::Span(Span::minutes(min)))),
        3 => plan().prop_map(|plan| Event::Preparation(Box::new(plan))),
        2 => vial().prop_map(Event::Vial),
        4 => (0_u32..16).prop_map(Event::Drew),
        1 => (0_u32..16).prop_map(|movement| Event::Checked { movement, by: "AB".into() }),
        3 => reaction().prop_map(Event::Anaphylaxis),
        1 => flag().prop_map(Event::Noticed),
        2 => besides().prop_map(Event::Adjunct),
        2 => prop_oneof![-7_200_000..7_200_000_i64, any::<i64>()].prop_map(Event::ClockJumped),
        1 => end().prop_map(Event::Closed),
        3 => followed(),
        4 => chosen(),
        1 => "[a-z ]{0,12}".prop_map(Event::Note),
    ]
}
