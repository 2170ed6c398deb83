//! How long it takes to work out where a case stands, from all that was recorded in it.
//!
//! No case has ten thousand entries; it is the length at which a fold that grows with its square
//! would show.

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use freshet::case::{Case, Journal};
use freshet::measure::{Moment, Span};
use freshet::record::samples;
use std::hint::black_box;

const ENTRIES: [usize; 3] = [100, 1_000, 10_000];

/// The events of a played case over and over, a second apart.
fn journal(entries: usize) -> Journal {
    let played = samples::occlusion().journal;
    let mut journal = Journal::new(played.case());
    let mut at = Moment::from_millis(1_795_615_500_000);
    for entry in played.entries().iter().cycle().take(entries) {
        journal.append(at, 0, entry.body().event.clone());
        at = at.after(Span::seconds(1));
    }
    journal
}

fn fold(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("fold");
    for entries in ENTRIES {
        let journal = journal(entries);
        group.throughput(Throughput::Elements(entries as u64));
        group.bench_with_input(
            BenchmarkId::new("entries", entries),
            &journal,
            |bencher, journal| {
                bencher.iter(|| Case::of(black_box(journal)));
            },
        );
    }
}

criterion_group!(all, fold);
criterion_main!(all);
