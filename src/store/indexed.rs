//! The deep shelf: the journal's lines in IndexedDB.

use super::database::{Part, delete, read, read_all, twice, write};
use super::{Key, Refusal, Shelf, Slip};
use wasm_bindgen::JsValue;
use web_sys::IdbDatabase;

/// IndexedDB of this browser.
#[derive(Clone, Copy, Debug, Default)]
pub struct Indexed;

impl Shelf for Indexed {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        keep(slips)
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        twice(Part::Entries, async |database: &IdbDatabase| all(database).await)
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        take_away(keys)
    }
}

async fn take_away(keys: Vec<Key>) -> Result<(), Refusal> {
    let keys: Vec<_> = keys.iter().map(|key| JsValue::from(key.as_str())).collect();
    twice(Part::Entries, async |database| delete(database, Part::Entries, &keys).await).await
}

async fn keep(slips: Vec<Slip>) -> Result<(), Refusal> {
    twice(Part::Entries, async |database| put(database, &slips).await).await
}

async fn put(database: &IdbDatabase, slips: &[Slip]) -> Result<(), Refusal> {
    let pair = |slip: &Slip| (JsValue::from(slip.key.as_str()), JsValue::from(&slip.line));
    let pairs: Vec<_> = slips.iter().map(pair).collect();
    write(database, Part::Entries, &pairs).await?;
    let back = read(database, Part::Entries, pairs.iter().map(|(key, _)| key)).await?;
    let same = |(slip, back): (&Slip, &JsValue)| back.as_string().is_some_and(|b| b == slip.line);
    if slips.iter().zip(&back).all(same) { Ok(()) } else { Err(Refusal::NotReadBack) }
}

async fn all(database: &IdbDatabase) -> Result<Vec<Slip>, Refusal> {
    let slip = |(key, line): (JsValue, JsValue)| {
        Some(Slip { key: Key::read(&key.as_string()?)?, line: line.as_string()? })
    };
    Ok(read_all(database, Part::Entries).await?.into_iter().filter_map(slip).collect())
}
