//! What is given besides the enzyme, line by line.

use freshet::care::adjunct::{Asked, Aspirin, aspirin, regimens};
use freshet::care::allergy::Answer;
use freshet::protocol::Basis;
use freshet::protocol::adjunct::{
    ASPIRIN_FROM_YEARS, ASPIRIN_LABEL_DAILY, Adjunct, Concern, Conflict, Course,
    METHOTREXATE_WEEKLY, Milligrams, SAYINGS, Stance,
};
use freshet::protocol::source;

fn stances(adjunct: Adjunct) -> Vec<Stance> {
    SAYINGS.iter().filter(|says| says.adjunct == adjunct).map(|says| says.stance).collect()
}

/// Cohen 2015: warm compress and massage help, nitroglycerin paste is controversial, an oral aspirin
/// regimen is introduced.
#[test]
fn what_the_consensus_says() {
    let consensus = Basis::Published(source::CONSENSUS_2015);
    let of = |adjunct| SAYINGS.iter().find(|s| s.adjunct == adjunct && s.basis == consensus);
    for (adjunct, stance) in [
        (Adjunct::Warmth, Stance::For),
        (Adjunct::Massage, Stance::For),
        (Adjunct::Aspirin, Stance::For),
        (Adjunct::Nitroglycerin, Stance::Disputed),
    ] {
        assert_eq!(of(adjunct).unwrap().stance, stance, "{adjunct:?}");
    }
    assert_eq!(stances(Adjunct::Nitroglycerin), [Stance::Disputed], "nobody speaks for it");
}

/// A paper quoted second hand: aspirin 300 mg at once, then 75 mg a day until resolved; clopidogrel
/// 300 then 75 for those allergic to aspirin.
/// Ugonabo 2021: 650 mg in one case in the United States. From memory: 325 mg a day there.
#[test]
fn doses_differ() {
    let doses = |adjunct| -> Vec<(u32, Option<u32>)> {
        let then = |course| match course {
            Course::Once => None,
            Course::Daily(Milligrams(mg)) => Some(mg),
        };
        regimens(adjunct).map(|r| (r.first.0, then(r.then))).collect()
    };
    let aspirin = doses(Adjunct::Aspirin);
    assert_eq!(aspirin[0], (300, Some(75)));
    assert!(aspirin.contains(&(650, None)) && aspirin.contains(&(325, Some(325))));
    assert_eq!(doses(Adjunct::Clopidogrel), [(300, Some(75))]);
    assert_eq!(doses(Adjunct::Warmth), []);
}

/// UK label, aspirin 300 mg: not under 16, not with a peptic ulcer now or earlier, haemophilia, or
/// hypersensitivity with asthma or hives; it enhances anticoagulants; 300 mg a day against clots.
/// UK leaflet: not in the third trimester, with severe failure of liver, kidney or heart, or with
/// methotrexate from 15 mg a week.
#[test]
fn who_must_not_have_aspirin() {
    let mut well = Asked::default();
    for concern in Concern::ALL {
        well.put(concern, Answer::No);
    }
    assert_eq!(aspirin(&well), Aspirin::MayBeGiven);
    for concern in [
        Concern::Allergy,
        Concern::Asthma,
        Concern::Bleeding,
        Concern::Ulcer,
        Concern::Young,
        Concern::LatePregnancy,
        Concern::OrganFailure,
        Concern::Methotrexate,
    ] {
        let mut asked = well.clone();
        asked.put(concern, Answer::Yes);
        assert_eq!(aspirin(&asked), Aspirin::MustNot(vec![concern]));
    }
    let mut asked = well;
    asked.put(Concern::Anticoagulant, Answer::Yes);
    assert_eq!(aspirin(&asked), Aspirin::Prescriber(vec![Concern::Anticoagulant]));
    assert_eq!((ASPIRIN_FROM_YEARS, METHOTREXATE_WEEKLY), (16, Milligrams(15)));
    assert_eq!(ASPIRIN_LABEL_DAILY, Milligrams(300));
}

/// US labels of the enzyme: large doses of salicylates may make more of it necessary. Schriger &
/// Baraff 1988 and Gorelick 1993: cold skin refills slowly, warm skin quickly.
#[test]
fn what_does_not_go_together() {
    let source = |conflict: Conflict| conflict.basis().0.source();
    assert_eq!(source(Conflict::AspirinWithEnzyme), Some(source::LABEL_US));
    assert_eq!(source(Conflict::ColdBeforeReading), Some(source::REFILL_1988));
    assert_eq!(source(Conflict::WarmthBeforeReading), Some(source::REFILL_1993));
}
