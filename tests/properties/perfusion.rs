//! What changed in the skin: one rule, told in two places.

use freshet::care::perfusion::{Aspect, Change, State, Trend, change};
use freshet::care::refill::{Colour, Refill};
use freshet::care::rounds::{Function, Look, Pain, Temperature};
use freshet::measure::{Area, Span};
use freshet::protocol::Protocol;
use proptest::prelude::*;
use proptest::{option, sample};

fn look() -> impl Strategy<Value = Look> {
    const COLOURS: &[Colour] =
        &[Colour::Normal, Colour::Pale, Colour::Mottled, Colour::Blue, Colour::Black];
    (option::of(0_u64..6_000), sample::select(COLOURS), 0_u8..=10).prop_map(
        |(refill, colour, pain)| Look {
            refill: refill.map(|millis| Refill { affected: Span::millis(millis), opposite: None }),
            ..Look::of(colour, Pain::new(pain).unwrap())
        },
    )
}

fn state() -> impl Strategy<Value = State> {
    let temperatures = sample::select(&[Temperature::Warm, Temperature::Cool][..]);
    let functions = sample::select(&[Function::Normal, Function::Impaired][..]);
    (
        look(),
        option::of(0_u64..2_000),
        option::of(temperatures),
        option::of(functions),
        option::of(0_u64..60_000),
    )
        .prop_map(|(look, spread, temperature, function, area)| State {
            spread: spread.map(Span::millis),
            temperature,
            function,
            area: area.map(Area::mm2),
            ..State::of(&look, None)
        })
}

proptest! {
    /// Nothing is better and worse at once, and time run backwards turns better and worse round,
    /// but for improvements that a spread hides.
    #[test]
    fn backwards_it_is_the_other_way_round(before in state(), now in state()) {
        let protocol = Protocol::default();
        let (there, back) = (change(&before, &now, &protocol), change(&now, &before, &protocol));
        for (aspect, trend) in there.trends() {
            let turned = match trend {
                Trend::Better => Trend::Worse,
                Trend::Worse if *aspect == Aspect::Refill => {
                    prop_assert!(back.of(*aspect) != Trend::Worse);
                    continue;
                }
                Trend::Worse => Trend::Better,
                Trend::Same if *aspect == Aspect::Refill => {
                    prop_assert!(back.of(*aspect) != Trend::Better);
                    continue;
                }
                other => *other,
            };
            prop_assert_eq!(back.of(*aspect), turned, "{:?}", aspect);
        }
    }

    /// Nothing changed, nothing told.
    #[test]
    fn the_same_skin_has_not_changed(state in state()) {
        prop_assert_eq!(change(&state, &state, &Protocol::default()).whole(), Change::Same);
    }
}
