//! How long the surface, the grid, its order and its reach take, and how that grows.
//!
//! `cargo bench --no-default-features --bench territory` measures as fast as the compiler can make
//! it; with `CARGO_PROFILE_BENCH_OPT_LEVEL=z` in front of it, as small as the app is built.
//!
//! `territory` is what is asked for when a line has been drawn: surface, grid and order together.
//! Its bound for 2 000 places and 500 points is 5 ms.

use criterion::{BatchSize, BenchmarkId, Criterion, criterion_group, criterion_main};
use freshet::measure::Length;
use freshet::plane::{Grid, Lattice, Outline, Spot, in_order, lay, reach, sample};
use std::hint::black_box;
use std::time::Duration;

/// As a clinic would have it.
const SPACING: Length = Length::mm(10);
/// Places of an outline, for about 500 points.
const VERTICES: [usize; 4] = [125, 500, 2_000, 8_000];
/// About so many points, each with how far across an outline for them is, in millimetres.
const POINTS: [(usize, f64); 4] = [(30, 69.0), (125, 142.0), (500, 282.0), (2_000, 565.0)];
/// Across, for about 500 points.
const ACROSS: f64 = 282.0;
/// Places of an outline while the number of points changes.
const DRAWN: usize = 2_000;

fn grid(outline: &Outline) -> Grid {
    lay(outline, Lattice::Square, SPACING, Length::ZERO)
}

/// The points of a grid in no order.
fn muddled(grid: &Grid) -> Vec<Spot> {
    let mut spots = grid.spots().to_vec();
    spots.sort_by_key(|spot| i64::from(spot.x) * 7_919 % 1_009 + i64::from(spot.y) * 104_729 % 997);
    spots
}

/// Outlines by what changes: their places, or their points.
fn outlines() -> Vec<(&'static str, usize, Outline)> {
    let by_vertices =
        VERTICES.map(|vertices| ("vertices", vertices, sample::wavy(vertices, ACROSS)));
    let by_points = POINTS.map(|(points, across)| ("points", points, sample::wavy(DRAWN, across)));
    by_vertices.into_iter().chain(by_points).collect()
}

fn area(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("area");
    for (what, count, outline) in outlines() {
        let name = BenchmarkId::new(what, count);
        group.bench_with_input(name, &outline, |bencher, outline| {
            bencher.iter(|| black_box(outline).area());
        });
    }
}

/// The grid with its search and its order.
fn laid(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("lay");
    for (what, count, outline) in outlines() {
        println!("{what} {count}: {} points on {} cm²", grid(&outline).len(), outline.area());
        let name = BenchmarkId::new(what, count);
        group.bench_with_input(name, &outline, |bencher, outline| {
            bencher.iter(|| grid(black_box(outline)));
        });
    }
}

fn order(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("order");
    for (points, across) in POINTS {
        let spots = muddled(&grid(&sample::wavy(DRAWN, across)));
        group.bench_with_input(BenchmarkId::new("points", points), &spots, |bencher, spots| {
            bencher.iter_batched(|| spots.clone(), in_order, BatchSize::SmallInput);
        });
    }
}

fn reached(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("reach");
    for (what, count, outline) in outlines() {
        let grid = grid(&outline);
        group.bench_function(BenchmarkId::new(what, count), |bencher| {
            bencher.iter(|| reach(black_box(&outline), black_box(grid.spots())));
        });
    }
}

fn territory(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("territory");
    for lattice in [Lattice::Square, Lattice::Hexagonal] {
        for margin in [0, 3] {
            let outline = sample::wavy(DRAWN, ACROSS);
            let name = format!("{lattice:?}, margin {margin} mm");
            group.bench_function(name, |bencher| {
                bencher.iter(|| {
                    let outline = black_box(&outline);
                    (outline.area(), lay(outline, lattice, SPACING, Length::mm(margin)))
                });
            });
        }
    }
}

criterion_group! {
    name = all;
    config = Criterion::default()
        .sample_size(20)
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(1));
    targets = area, laid, order, reached, territory
}
criterion_main!(all);
