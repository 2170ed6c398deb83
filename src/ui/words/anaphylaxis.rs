//! Anaphylaxis.

use crate::care::anaphylaxis::{Act, Recognised, Sign};
use crate::protocol::Region;
use crate::ui::language::spoken;

pub fn sign(sign: Sign) -> &'static str {
    spoken(match sign {
        Sign::UpperAirway => "Tongue or throat swollen, hoarse, stridor",
        Sign::Bronchospasm => "Wheeze",
        Sign::Breathing => "Breathless, fast breathing",
        Sign::Hypotension => "Low blood pressure, collapse",
        Sign::Circulation => "Pale, clammy, fast pulse, faint",
        Sign::Gut => "Severe belly pain or vomiting that goes on",
        Sign::Skin => "Hives, flushing, swollen face",
    })
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
    spoken(match recognised {
        Recognised::WithoutSkin => "Anaphylaxis, even without skin signs: adrenaline now",
        Recognised::WithSkin => "Anaphylaxis: adrenaline now",
        Recognised::NotMet => "Criteria not met so far. Stay, watch, look again.",
    })
}

pub fn region(region: Region) -> &'static str {
    spoken(match region {
        Region::Uk => "UK",
        Region::Australia => "Australia, NZ",
    })
}

pub fn act(act: &Act) -> String {
    match act {
        Act::Signs(signs) => {
            let names: Vec<&str> = signs.iter().map(|found| sign(*found)).collect();
            tr!("Signs: {signs}", signs = names.join("; "))
        }
        Act::Called => tr!("Emergency services called"),
        Act::Adrenaline(volume) => tr!(
            "Adrenaline {strength}, {volume} into the thigh muscle",
            strength = super::sheet::strength(),
            volume = super::numbers::volume_named(*volume)
        ),
        Act::Positioned => tr!("Laid flat, or sitting to breathe"),
        Act::Fluids => tr!("Fluids into a vein"),
        Act::Better => tr!("Better"),
        Act::NotBetter => tr!("Not better"),
        Act::Over => tr!("Reaction over, or taken over by others"),
    }
}
