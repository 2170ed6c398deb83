//! The syringe and the vial of a movement, to scale.

use super::walk::Walk;
use crate::care::dilution::{Movement, Stage};
use crate::measure::Volume;
use crate::protocol::diluent::Diluent;
use crate::ui::parts::{Fluid, Layer, SyringeDrawing, VialDrawing};
use crate::ui::steps::use_here;
use crate::ui::words::{dilution as words_of, numbers, syringe as said};
use leptos::prelude::*;

/// What is drawn in the barrel, and where the plunger has to go.
struct Barrel {
    layers: Vec<Layer>,
    aim: Option<Volume>,
}

/// The liquid in the syringe before a movement.
fn before(walk: &Walk, index: u32) -> Fluid {
    // Since it was last empty: made up is mixed; else it is what was drawn.
    let from = usize::try_from(index).unwrap_or(0);
    for stage in walk.stages.iter().take(from).rev() {
        match stage.movement {
            Movement::MakeUp { .. } => return Fluid::Mixed,
            Movement::DrawDiluent { .. } => return Fluid::Diluent,
            Movement::DrawFromVial { .. } => return Fluid::Stock,
            Movement::Dissolve { .. } | Movement::Finish { .. } => break,
            Movement::Expel { .. } => {}
        }
    }
    Fluid::Stock
}

fn barrel(walk: &Walk, index: u32, stage: &Stage, diluent: Diluent) -> Barrel {
    let (was, is) = (stage.syringe.before.volume, stage.syringe.after.volume);
    let drawn = is.saturating_sub(was);
    let named = |fluid: Fluid, volume: Volume| {
        let name = match fluid {
            Fluid::Stock => words_of::stock().to_owned(),
            Fluid::Mixed => words_of::mixed().to_owned(),
            Fluid::Diluent | Fluid::Other => words_of::diluent_named(diluent),
        };
        Layer::new(fluid, volume).named(format!("{name}, {}", numbers::volume_named(volume)))
    };
    let layers = match stage.movement {
        Movement::DrawDiluent { to } => vec![named(Fluid::Diluent, to)],
        Movement::DrawFromVial { to, .. } => vec![named(Fluid::Stock, to)],
        Movement::MakeUp { .. } => {
            vec![named(before(walk, index), was), named(Fluid::Diluent, drawn)]
        }
        // Drawn as it stands before: what is pushed out is still to be seen.
        Movement::Dissolve { .. } | Movement::Expel { .. } | Movement::Finish { .. } => {
            vec![named(before(walk, index), was)]
        }
    };
    let aim = match stage.movement {
        Movement::Finish { .. } => None,
        Movement::Dissolve { .. } => Some(Volume::ZERO),
        moved => moved.mark(),
    };
    Barrel { layers, aim }
}

/// The syringe of a movement.
#[component]
pub fn SyringePicture(walk: Walk, index: u32) -> impl IntoView {
    let stage = *walk.stage(index)?;
    let Barrel { layers, aim } = barrel(&walk, index, &stage, use_here().now().diluent);
    let ask = *walk.plan.ask();
    let capacity = ask.syringe.capacity();
    let plunger = stage.syringe.before.volume;
    Some(view! {
        <SyringeDrawing
            capacity
            interval=ask.syringe.interval()
            layers
            aim
            unit=Some(said::ml().to_owned())
            label=said::picture(capacity, plunger, aim)
        />
    })
}

/// The vial of a movement, if it is about one.
#[component]
pub fn VialPicture(walk: Walk, index: u32) -> impl IntoView {
    let (_, change) = walk.stage(index)?.vial?;
    let (was, is) = (change.before.volume, change.after.volume);
    let words = |volume: Volume| (!volume.is_zero()).then(|| numbers::volume_named(volume));
    Some(view! {
        <VialDrawing
            capacity=walk.plan.ask().vial.holds
            liquid=was
            fluid=Fluid::Stock
            powder=was.is_zero()
            rest=Some(is)
            level_words=words(was)
            rest_words=words(is)
            label=said::vial_picture(was, is)
        />
    })
}
