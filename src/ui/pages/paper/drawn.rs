//! The lines of a text as they stand on the page, and the drawings between them.

use crate::care::rounds::{Point, Round};
use crate::case::Case;
use crate::record::note::Hours;
use crate::ui::parts::{GridDrawing, PointKey, PointMark};
use crate::ui::photo::Fetched;
use crate::ui::skin::{Layer, Picture, SkinDrawing, SkinPoint};
use crate::ui::steps::{Here, RefillTrend};
use crate::ui::words::document::{self, Line, Pictured};
use crate::ui::words::{note, round_screens};
use leptos::prelude::*;

/// The lines of a part: fields one under the other, tables with headings, lines to write on.
pub(super) fn lines(lines: Vec<Line>) -> impl IntoView {
    let mut shown: Vec<AnyView> = Vec::new();
    let mut rest = lines.into_iter().peekable();
    while let Some(line) = rest.next() {
        if let Line::Say(first) = line {
            let mut sentences = vec![first];
            while let Some(Line::Say(next)) = rest.next_if(|line| matches!(line, Line::Say(_))) {
                sentences.push(next);
            }
            let sentences = sentences.into_iter().map(|one| view! { <li>{one}</li> });
            shown.push(view! { <ul>{sentences.collect_view()}</ul> }.into_any());
        } else {
            shown.push(single(line));
        }
    }
    shown
}

fn single(line: Line) -> AnyView {
    match line {
        Line::Say(sentence) => view! { <p>{sentence}</p> }.into_any(),
        Line::Field(label, value) => view! {
            <p class="paper-field">
                <span class="paper-label">{label}</span>
                " "
                <span>{value}</span>
            </p>
        }
        .into_any(),
        Line::Blank(label) => view! {
            <p class="paper-field">
                <span class="paper-label">{label}</span>
                " "
                <span class="paper-blank"></span>
            </p>
        }
        .into_any(),
        Line::Tick(ticked, label) => {
            let class = if ticked { "paper-box ticked" } else { "paper-box" };
            view! {
                <p class="paper-tick">
                    <span class=class aria-hidden="true">
                        {if ticked { "✕" } else { "" }}
                    </span>
                    " "
                    <span>
                        {label} <span class="unseen">{document::ticked(ticked)}</span>
                    </span>
                </p>
            }
            .into_any()
        }
        Line::Call(name, number) => view! {
            <p class="paper-field">
                <span class="paper-label">{name}</span>
                " "
                <strong class="paper-number">{number}</strong>
            </p>
        }
        .into_any(),
        Line::Struck(said, struck) => view! {
            <p class="paper-struck">
                <del>{said}</del>
                " "
                <span>{document::struck_out(&struck)}</span>
            </p>
        }
        .into_any(),
        Line::Table(head, rows) => table(&head, rows),
    }
}

/// A table; where it is narrow, each cell stands under the other with its column's name.
fn table(head: &[&'static str], rows: Vec<Vec<String>>) -> AnyView {
    let names = head.iter().map(|name| view! { <th scope="col">{*name}</th> });
    let row = |cells: Vec<String>| {
        let cell = |(column, cell): (usize, String)| {
            if column == 0 {
                view! { <th scope="row">{cell}</th> }.into_any()
            } else {
                let name = head.get(column).copied().unwrap_or_default();
                view! { <td data-column=name>{cell}</td> }.into_any()
            }
        };
        view! { <tr>{cells.into_iter().enumerate().map(cell).collect_view()}</tr> }
    };
    view! {
        <table class="paper-table">
            <thead>
                <tr>{names.collect_view()}</tr>
            </thead>
            <tbody>{rows.into_iter().map(row).collect_view()}</tbody>
        </table>
    }
    .into_any()
}

/// A drawing between the lines. Never a photo: those go on the page by a tick alone.
#[component]
pub(super) fn Drawn(
    /// What is drawn.
    picture: Pictured,
    /// The case.
    here: Here,
    /// What the clinic's clock showed.
    hours: Hours,
) -> impl IntoView {
    match picture {
        Pictured::Course => view! { <RefillTrend hours /> }.into_any(),
        Pictured::Round(index) => {
            let case = untrack(|| here.case());
            points(&case, index).into_any()
        }
    }
}

fn points(case: &Case, index: usize) -> Option<AnyView> {
    let round = case.treatment.rounds().get(index)?;
    let count = |is: fn(&Point) -> bool| round.points.iter().filter(|point| is(point)).count();
    let all = count(|point| *point != Point::Withdrawn);
    let done = count(|point| matches!(point, Point::Injected(_)));
    let skipped = count(|point| matches!(point, Point::Skipped(_)));
    let label = round_screens::drawing(all, done, skipped);
    let marks: Vec<PointMark> = round.points.iter().map(mark).collect();
    let drawn = case.territory_of(index).and_then(|told| told.outlined());
    let picture = drawn.filter(|_| round.grid.is_some()).map(|drawn| Picture::of(&drawn.ground));
    if let (Some(drawn), Some(Ok(picture))) = (drawn, picture) {
        let layers = vec![Layer { outline: drawn.outline.clone(), earlier: None }];
        let points = spots(round, &marks);
        let photo = Signal::stored(Fetched::Waiting);
        return Some(
            view! {
                <div class="paper-map paper-skin">
                    <SkinDrawing picture photo layers points numbered=true label />
                    <PointKey marks=key() />
                </div>
            }
            .into_any(),
        );
    }
    Some(
        view! {
            <div class="paper-map">
                <GridDrawing points=marks numbered=true label />
                <PointKey marks=key() />
            </div>
        }
        .into_any(),
    )
}

fn key() -> Vec<(PointMark, &'static str)> {
    let mark = |mark: PointMark| (mark, note::mark(mark));
    [PointMark::Done, PointMark::Skipped, PointMark::Todo].map(mark).to_vec()
}

const fn mark(point: &Point) -> PointMark {
    match point {
        Point::Injected(_) => PointMark::Done,
        Point::Skipped(_) | Point::Withdrawn => PointMark::Skipped,
        Point::Open => PointMark::Todo,
    }
}

fn spots(round: &Round, marks: &[PointMark]) -> Vec<SkinPoint> {
    let point = |(number, mark): (u32, &PointMark)| {
        let there = round.points.get(number as usize - 1) != Some(&Point::Withdrawn);
        let spot = round.spot(number).filter(|_| there)?;
        Some(SkinPoint { number, spot, mark: *mark, added: number > round.plan.points })
    };
    (1..).zip(marks).filter_map(point).collect()
}
