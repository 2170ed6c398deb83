//! Anaphylaxis.

use crate::care::anaphylaxis::{Act, Recognised, Sign};
use crate::protocol::Region;

pub fn sign(sign: Sign) -> &'static str {
    match sign {
        Sign::UpperAirway => "Tongue or throat swollen, hoarse, stridor",
        Sign::Bronchospasm => "Wheeze",
        Sign::Breathing => "Breathless, fast breathing",
        Sign::Hypotension => "Low blood pressure, collapse",
        Sign::Circulation => "Pale, clammy, fast pulse, faint",
        Sign::Gut => "Severe belly pain or vomiting that goes on",
        Sign::Skin => "Hives, flushing, swollen face",
    }
}

pub const SIGNS: [Sign; 7] = [
    Sign::UpperAirway,
    Sign::Bronchospasm,
    Sign::Breathing,
    Sign::Hypotension,
    Sign::Circulation,
    Sign::Gut,
    Sign::Skin,
];

pub fn recognised(recognised: Recognised) -> &'static str {
    match recognised {
        Recognised::WithoutSkin => "Anaphylaxis, even without skin signs: adrenaline now",
        Recognised::WithSkin => "Anaphylaxis: adrenaline now",
        Recognised::NotMet => "Criteria not met so far. Stay, watch, look again.",
    }
}

pub fn region(region: Region) -> &'static str {
    match region {
        Region::Uk => "UK",
        Region::Australia => "Australia, NZ",
    }
}

pub fn act(act: &Act) -> String {
    match act {
        Act::Signs(signs) => {
            let names: Vec<&str> = signs.iter().map(|found| sign(*found)).collect();
            format!("Signs: {}", names.join("; "))
        }
        Act::Called => "Emergency services called".into(),
        Act::Adrenaline(volume) => format!(
            "Adrenaline {}, {} into the thigh muscle",
            super::sheet::strength(),
            super::numbers::volume_named(*volume)
        ),
        Act::Positioned => "Laid flat, or sitting to breathe".into(),
        Act::Fluids => "Fluids into a vein".into(),
        Act::Better => "Better".into(),
        Act::NotBetter => "Not better".into(),
        Act::Over => "Reaction over, or taken over by others".into(),
    }
}
