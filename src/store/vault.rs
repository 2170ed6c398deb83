//! The archive of this browser, in IndexedDB.

use super::Refusal;
use super::archive::{Exchange, Vault};
use super::database::{Part, exchange, read, read_all, read_keys, twice};
use crate::case::CaseId;
use std::collections::{BTreeMap, BTreeSet};
use wasm_bindgen::JsValue;
use web_sys::IdbDatabase;

/// The archive of this browser.
#[derive(Clone, Copy, Debug, Default)]
pub struct Old;

impl Vault for Old {
    async fn names(&self) -> Result<BTreeSet<CaseId>, Refusal> {
        let keys = twice(Part::Archive, async |database: &IdbDatabase| {
            read_keys(database, Part::Archive).await
        });
        Ok(keys.await?.iter().filter_map(case).collect())
    }

    async fn text(&self, id: CaseId) -> Result<Option<String>, Refusal> {
        let key = key(id);
        let found = twice(Part::Archive, async |database: &IdbDatabase| {
            read(database, Part::Archive, std::iter::once(&key)).await
        });
        Ok(found.await?.pop().and_then(|value| value.as_string()))
    }

    async fn texts(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        every(Part::Archive).await
    }

    async fn headlines(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        every(Part::Headlines).await
    }

    async fn exchange(&self, new: Exchange) -> Result<(), Refusal> {
        let Exchange { id, before, text, headline } = new;
        let (key, before) = (key(id), before.map_or(JsValue::UNDEFINED, JsValue::from));
        let new =
            [(Part::Archive, JsValue::from(text)), (Part::Headlines, JsValue::from(headline))];
        // Tried once more only where nothing was written: after a lost answer the text is no longer
        // what it was before, which the next start finds out.
        twice(Part::Archive, async |database: &IdbDatabase| {
            exchange(database, &key, &before, new.clone()).await
        })
        .await
    }
}

/// Every text of a part, by case.
async fn every(part: Part) -> Result<BTreeMap<CaseId, String>, Refusal> {
    let found = twice(part, async |database: &IdbDatabase| read_all(database, part).await);
    let pair = |(key, value): (JsValue, JsValue)| Some((case(&key)?, value.as_string()?));
    Ok(found.await?.into_iter().filter_map(pair).collect())
}

fn key(id: CaseId) -> JsValue {
    JsValue::from(id.to_string())
}

fn case(key: &JsValue) -> Option<CaseId> {
    key.as_string()?.parse().ok()
}
