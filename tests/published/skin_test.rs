//! Reading a skin test by each guideline.

use freshet::care::skin_test::{Call, Placed, Seen, Verdict, calls, judge, portions};
use freshet::measure::{Length, Span, Strength, Units, Volume};
use freshet::protocol::Protocol;
use freshet::protocol::intradermal::{BLEB_OF_20_UL, Scheme};

const NOTHING: Seen =
    Seen { wheal: Length::ZERO, flare: false, itch: false, pseudopods: false, systemic: false };

fn placed(bleb: u64) -> Placed {
    Placed { dose: Units::whole(3), volume: Volume::ul(20), bleb: Some(Length::mm(bleb)) }
}

fn call(scheme: Scheme, bleb: u64, seen: Seen, minutes: u64) -> Call {
    let calls = calls(&placed(bleb), &seen, Span::minutes(minutes));
    calls.into_iter().find(|(reading, _)| reading.scheme == scheme).unwrap().1
}

/// Barbaud 2020, table 1: bleb 5 mm, wheal 8 mm with flare is positive for EAACI, BSACI and Macy,
/// not for SFAR (needs 10) nor ESCD (needs 10).
#[test]
fn five_to_eight_millimetres_with_flare() {
    let seen = Seen { wheal: Length::mm(8), flare: true, ..NOTHING };
    assert_eq!(call(Scheme::Eaaci, 5, seen, 20), Call::Positive);
    assert_eq!(call(Scheme::Bsaci, 5, seen, 20), Call::Positive);
    assert_eq!(call(Scheme::Sfar, 5, seen, 20), Call::Negative);
    assert_eq!(call(Scheme::Escd, 5, seen, 30), Call::Negative);
    assert_eq!(call(Scheme::Macy, 5, seen, 15), Call::Positive);
}

/// Barbaud 2020, table 1: SFAR needs twice the bleb, ESCD 10 mm.
#[test]
fn ten_millimetres() {
    let seen = Seen { wheal: Length::mm(10), ..NOTHING };
    assert_eq!(call(Scheme::Sfar, 5, seen, 20), Call::Positive);
    assert_eq!(call(Scheme::Escd, 5, seen, 30), Call::Positive);
    assert_eq!(call(Scheme::Eaaci, 5, seen, 20), Call::Negative, "no flare");
}

/// Barbaud 2020, table 1: each guideline reads at its own minutes.
#[test]
fn minutes_of_the_readings() {
    let reads = |scheme, minutes| call(scheme, 5, NOTHING, minutes) != Call::OtherTime;
    for (scheme, from, to) in [
        (Scheme::Eaaci, 15, 20),
        (Scheme::Bsaci, 20, 30),
        (Scheme::Sfar, 20, 20),
        (Scheme::Escd, 30, 30),
        (Scheme::Macy, 15, 15),
    ] {
        assert!(reads(scheme, from) && reads(scheme, to), "{scheme:?}");
        assert!(!reads(scheme, from - 1) && !reads(scheme, to + 1), "{scheme:?}");
    }
}

/// US labels: a wheal with pseudopods and itching within 5 minutes is positive; redness alone is not.
#[test]
fn the_label() {
    let full = Seen { wheal: Length::mm(6), pseudopods: true, itch: true, ..NOTHING };
    assert_eq!(call(Scheme::UsLabel, 5, full, 5), Call::Positive);
    let red = Seen { flare: true, ..NOTHING };
    assert_eq!(call(Scheme::UsLabel, 5, red, 10), Call::Negative);
    let judged = judge(&placed(5), &red, Span::minutes(20), &Protocol::default());
    assert_eq!(judged, Verdict::Negative);
}

/// Barbaud 2020: 0.02 mL leaves a bleb of 5 mm (2 to 10).
#[test]
fn the_bleb() {
    assert_eq!(BLEB_OF_20_UL, (Length::mm(2), Length::mm(5), Length::mm(10)));
}

/// US labels: 0.02 mL of 150 units/mL. Common practice, no source: 15 to 30 units.
#[test]
fn doses() {
    let at_150 = portions(Strength::per_ml(150), Volume::ul(10), &Protocol::default());
    let amounts: Vec<_> = at_150.iter().map(|p| (p.dose, p.volume)).collect();
    assert_eq!(
        amounts,
        [
            (Units::whole(3), Volume::ul(20)),
            (Units::whole(15), Volume::ul(100)),
            (Units::whole(30), Volume::ul(200))
        ]
    );
}

/// Common practice, no source: a raised, red, itching wheal is positive.
#[test]
fn raised_red_itching() {
    let seen = Seen { wheal: Length::mm(4), flare: true, itch: true, ..NOTHING };
    let judged = judge(&placed(5), &seen, Span::minutes(15), &Protocol::default());
    assert_eq!(judged, Verdict::Positive);
}
