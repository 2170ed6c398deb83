//! Whatever comes from outside and is read: typed texts, codes on packs, addresses of cases, lines,
//! files, archives, sealed texts, photos. Arbitrary input, and valid input spoilt: none of it makes a
//! reader panic or stand still, and what is read can be written and read again.
//!
//! Each test says how many inputs it had. `PROPTEST_CASES` makes them more (see `DEVELOPERS.md`). What
//! only the screens read is fuzzed beside them, in `ui::fuzz`.

mod files;
mod journals;
mod sealed;
mod typed;

use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{Config, TestRunner};
use std::cell::Cell;
use std::time::{Duration, Instant};

/// No reader takes so long over one input, even on a busy machine and unoptimised.
const STANDS_STILL: Duration = Duration::from_secs(20);

/// Runs a reader over many inputs, and prints how many there were.
fn fuzz<T: std::fmt::Debug>(
    name: &str,
    inputs: impl Strategy<Value = T>,
    read: impl Fn(T) -> Result<(), TestCaseError>,
) {
    let count = Cell::new(0_u64);
    // Seeds are printed with a failure; there is no one source file to keep them beside.
    let config = Config { failure_persistence: None, ..Config::default() };
    let mut runner = TestRunner::new(config);
    let ran = runner.run(&inputs, |input| {
        count.set(count.get() + 1);
        let begun = Instant::now();
        let told = read(input);
        prop_assert!(begun.elapsed() < STANDS_STILL, "took {:?}", begun.elapsed());
        told
    });
    println!("fuzzed {name}: {} inputs", count.get());
    if let Err(why) = ran {
        panic!("{name}: {why}");
    }
}

/// The three shortest: what is spoilt of a long text is no different, and takes longer to read.
fn shortest(texts: &[String]) -> Vec<&str> {
    let mut texts: Vec<&str> = texts.iter().map(String::as_str).collect();
    texts.sort_by_key(|text| text.len());
    texts.truncate(3);
    texts
}

/// A way to spoil what was valid.
#[derive(Clone, Debug)]
enum Spoil {
    /// One byte becomes another.
    Change(Index, u8),
    /// A piece goes.
    Cut(Index, Index),
    /// A piece stands there twice.
    Double(Index, Index),
    /// Two pieces of one length change places.
    Swap(Index, Index, usize),
    /// Something comes in between.
    Insert(Index, Vec<u8>),
    /// A digit becomes many: the largest numbers there are, and beyond.
    Grow(Index, usize),
}

fn spoils() -> impl Strategy<Value = Spoil> {
    let at = any::<Index>;
    prop_oneof![
        3 => (at(), any::<u8>()).prop_map(|(at, byte)| Spoil::Change(at, byte)),
        3 => (at(), prop::sample::select(&b"0123456789\"{}[]:,.- \n()null"[..]))
            .prop_map(|(at, byte)| Spoil::Change(at, byte)),
        2 => (at(), at()).prop_map(|(from, to)| Spoil::Cut(from, to)),
        2 => (at(), at()).prop_map(|(from, to)| Spoil::Double(from, to)),
        1 => (at(), at(), 1_usize..12).prop_map(|(one, other, long)| Spoil::Swap(one, other, long)),
        1 => (at(), prop::collection::vec(any::<u8>(), 1..8))
            .prop_map(|(at, bytes)| Spoil::Insert(at, bytes)),
        3 => (at(), 0_usize..NUMBERS.len()).prop_map(|(at, which)| Spoil::Grow(at, which)),
    ]
}

/// Numbers at the ends of their kinds.
const NUMBERS: [&str; 12] = [
    "0",
    "-1",
    "255",
    "65536",
    "2147483647",
    "4294967295",
    "4294967296",
    "9223372036854775807",
    "-9223372036854775808",
    "18446744073709551615",
    "18446744073709551616",
    "1e308",
];

impl Spoil {
    fn on(&self, bytes: &mut Vec<u8>) {
        if bytes.is_empty() {
            return;
        }
        let long = bytes.len();
        let span = |from: &Index, to: &Index| {
            let (one, other) = (from.index(long), to.index(long));
            one.min(other)..one.max(other)
        };
        match self {
            Self::Change(at, byte) => bytes[at.index(long)] = *byte,
            Self::Cut(from, to) => drop(bytes.drain(span(from, to))),
            Self::Double(from, to) => {
                let piece = bytes[span(from, to)].to_vec();
                let at = from.index(long);
                bytes.splice(at..at, piece);
            }
            Self::Swap(one, other, piece) => {
                let (one, other) = (one.index(long), other.index(long));
                let piece = *piece;
                let apart = one.abs_diff(other) >= piece;
                if apart && one.max(other) + piece <= long {
                    for step in 0..piece {
                        bytes.swap(one + step, other + step);
                    }
                }
            }
            Self::Insert(at, more) => {
                let at = at.index(long);
                bytes.splice(at..at, more.iter().copied());
            }
            Self::Grow(at, which) => {
                let from = at.index(long);
                let Some(begin) = (from..long).find(|place| bytes[*place].is_ascii_digit()) else {
                    return;
                };
                let end = (begin..long).find(|place| !bytes[*place].is_ascii_digit());
                bytes.splice(begin..end.unwrap_or(long), NUMBERS[*which].bytes());
            }
        }
    }
}

/// One of these, spoilt once or a few times.
fn spoilt(valid: Vec<Vec<u8>>) -> impl Strategy<Value = Vec<u8>> {
    let one = prop::sample::select(valid);
    (one, prop::collection::vec(spoils(), 1..4)).prop_map(|(mut bytes, spoils)| {
        for spoil in spoils {
            spoil.on(&mut bytes);
        }
        bytes
    })
}

/// Any bytes, or one of these spoilt.
fn bytes(valid: Vec<Vec<u8>>) -> impl Strategy<Value = Vec<u8>> {
    prop_oneof![
        1 => prop::collection::vec(any::<u8>(), 0..300),
        3 => spoilt(valid),
    ]
}

/// Any text, or one of these spoilt.
fn texts(valid: &[&str]) -> impl Strategy<Value = String> + use<> {
    let valid = valid.iter().map(|text| text.as_bytes().to_vec()).collect();
    prop_oneof![
        1 => any::<String>(),
        1 => "\\PC{0,40}",
        4 => spoilt(valid).prop_map(|bytes| String::from_utf8_lossy(&bytes).into_owned()),
    ]
}
