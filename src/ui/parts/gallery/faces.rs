//! The face in its four views.

use super::super::{FaceLines, Pair, Title, ZoneShapes, face_box};
use super::frame;
use crate::protocol::face::View;
use crate::protocol::zone::Zone;
use leptos::prelude::*;

fn face(view: View, zones: Option<Vec<Zone>>) -> AnyView {
    let shapes = zones.map(|chosen| view! { <ZoneShapes view=view chosen=chosen /> });
    view! {
        <figure class="drawing face">
            <svg viewBox=face_box(view) role="img" aria-label="A face">
                {shapes}
                <FaceLines view=view />
            </svg>
        </figure>
    }
    .into_any()
}

/// Each with its zones, two of them chosen.
pub(super) fn faces() -> AnyView {
    let chosen = || Some(vec![Zone::UpperLip, Zone::NasolabialFold]);
    let content = view! {
        <Title>"Faces"</Title>
        {View::ALL.map(|view| face(view, chosen())).into_iter().collect_view()}
        <Pair>{face(View::Front, None)} {face(View::Left, None)}</Pair>
        <Pair>{face(View::Right, None)} {face(View::Lips, None)}</Pair>
    };
    frame(4, 0.0, content.into_any(), ().into_any())
}
