//! The points of a round: on the skin that they were laid on, or on a plain grid.

use super::{Layer, Picture, SkinDrawing, SkinPoint};
use crate::care::rounds::{Point, Round};
use crate::care::territory::Outlined;
use crate::plane::Spot;
use crate::ui::parts::{GridDrawing, Note, PointMark, Tone};
use crate::ui::photo::{Fetched, use_photo};
use crate::ui::words::{points as said, round_screens};
use leptos::prelude::*;

/// How the points of a round stand.
#[component]
pub fn RoundDrawing(
    /// The round.
    round: Memo<Option<Round>>,
    /// The skin that it was begun on, if that was drawn.
    drawn: Option<Outlined>,
    /// Which point is taken now.
    next: Memo<Option<u32>>,
    /// A point was tapped, by its number.
    #[prop(into)]
    on_point: Callback<u32>,
    /// Skin was tapped, for a point to be added there.
    #[prop(into)]
    on_skin: Callback<Spot>,
    /// Whether a tap means the skin and not a point.
    #[prop(into)]
    placing: Signal<bool>,
) -> impl IntoView {
    let marks = Memo::new(move |_| -> Vec<PointMark> {
        let next = next.get();
        round.read().as_ref().map_or_else(Vec::new, |round| {
            let mark = |(number, point): (u32, &Point)| match point {
                Point::Injected(_) => PointMark::Done,
                Point::Skipped(_) | Point::Withdrawn => PointMark::Skipped,
                Point::Open if Some(number) == next => PointMark::Next,
                Point::Open => PointMark::Todo,
            };
            (1..).zip(&round.points).map(mark).collect()
        })
    });
    let label = Signal::derive(move || {
        let round = round.read();
        let points = round.as_ref().map(|round| round.points.as_slice()).unwrap_or_default();
        let count = |is: fn(&Point) -> bool| points.iter().filter(|point| is(point)).count();
        // One that was taken back is none.
        let all = count(|point| *point != Point::Withdrawn);
        let done = count(|point| matches!(point, Point::Injected(_)));
        round_screens::drawing(all, done, count(|point| matches!(point, Point::Skipped(_))))
    });
    let on_grid = round.with_untracked(|round| round.as_ref().is_some_and(|r| r.grid.is_some()));
    let picture = drawn.as_ref().filter(|_| on_grid).map(|drawn| Picture::of(&drawn.ground));
    let (Some(drawn), Some(Ok(picture))) = (drawn, picture) else {
        return view! { <GridDrawing points=marks label /> }.into_any();
    };
    let photo = use_photo(&drawn.ground);
    let points = Signal::derive(move || -> Vec<SkinPoint> {
        let round = round.read();
        let Some(round) = round.as_ref() else { return Vec::new() };
        let marks = marks.read();
        let point = |(number, mark): (u32, &PointMark)| {
            if round.points.get(number as usize - 1) == Some(&Point::Withdrawn) {
                return None;
            }
            let added = number > round.plan.points;
            Some(SkinPoint { number, spot: round.spot(number)?, mark: *mark, added })
        };
        (1..).zip(marks.iter()).filter_map(point).collect()
    });
    let layers = vec![Layer { outline: drawn.outline, earlier: None }];
    view! {
        <SkinDrawing picture photo layers points on_point on_skin placing label />
        {move || {
            matches!(photo.get(), Fetched::Gone)
                .then(|| view! { <Note tone=Tone::Caution>{said::photo_gone()}</Note> })
        }}
    }
    .into_any()
}
