//! A shelf or an archive behind a passcode: the same promises, with everything on it sealed.
//!
//! A line lies sealed under a name that tells its case and its place and, in place of its digest, a
//! digest that nobody can make without the keys; its true name is sealed with it. The values of the
//! clinic lie open, since an urgent case goes by them while the phone is locked.
//!
//! While the keys are away, what is sealed cannot be told from what is not there; what was written
//! since, by this very tab, can be read.
//!
//! [`Sealed::turn`] brings everything into the form that the lock wants now. It writes first and takes
//! away afterwards, so that it may break off anywhere: what lies there twice is read once.

use super::archive::{Exchange, Vault};
use super::lock::{Lock, Warden};
use super::{Key, Refusal, Shelf, Slip};
use crate::case::CaseId;
use crate::seal::{Broken, Random, is_letter, is_sealed};
use std::collections::{BTreeMap, BTreeSet};

#[cfg(test)]
mod tests;

/// A place behind a passcode.
#[derive(Clone, Copy, Debug, Default)]
pub struct Sealed<Inner, Guard> {
    inner: Inner,
    warden: Guard,
}

impl<Inner, Guard: Warden> Sealed<Inner, Guard> {
    /// From the place itself and who has the keys.
    pub const fn new(inner: Inner, warden: Guard) -> Self {
        Self { inner, warden }
    }

    fn sealed(&self, slip: Slip) -> Slip {
        let lock = self.warden.lock();
        let mut random = self.warden.random();
        let key = match &lock {
            Lock::Off => return slip,
            _ if lies_open(&slip.key) => return slip,
            Lock::Open(keys) => slip.key.veiled(&keys.name(slip.key.as_str())),
            Lock::Shut(_) => {
                let digits: [u8; 8] = random.draw();
                slip.key.veiled(&format!("{:016x}", u64::from_be_bytes(digits)))
            }
        };
        let line = format!("{}\n{}", slip.key, slip.line);
        let line = lock.seal_text(key.as_str(), line, &mut random);
        Slip { key, line }
    }
}

/// Whether a line is kept in the open whatever the lock: it is no patient's.
fn lies_open(key: &Key) -> bool {
    key.case() == Some(CaseId::CLINIC)
}

/// What a slip says once it is opened; none if the keys to it are away. What is broken stays as it
/// lies, to be told as damaged.
fn opened(lock: &Lock, slip: Slip) -> Option<Slip> {
    if !is_sealed(&slip.line) {
        return Some(slip);
    }
    let text = match lock {
        // Sealed, and no keys to it anywhere: told as damaged, and kept.
        Lock::Off => Err(Broken),
        Lock::Shut(letterbox) => Ok(letterbox.open_text(slip.key.as_str(), &slip.line).ok()?),
        Lock::Open(keys) => keys.open_text(slip.key.as_str(), &slip.line),
    };
    let read = |text: String| {
        let (name, line) = text.split_once('\n')?;
        Some(Slip { key: Key::read(name)?, line: line.to_owned() })
    };
    Some(text.ok().and_then(read).unwrap_or(slip))
}

impl<Inner: Shelf, Guard: Warden> Shelf for Sealed<Inner, Guard> {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        self.inner.put(slips.into_iter().map(|slip| self.sealed(slip)).collect())
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        let (all, lock) = (self.inner.all(), self.warden.lock());
        async move {
            let slips = all.await?.into_iter();
            // Written before the passcode was set and after, a line may lie here twice.
            let slips: BTreeSet<Slip> = slips.filter_map(|slip| opened(&lock, slip)).collect();
            Ok(slips.into_iter().collect())
        }
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let mut names = Vec::new();
        for key in keys {
            if let Lock::Open(keys) = self.warden.lock() {
                names.push(key.veiled(&keys.name(key.as_str())));
            }
            names.push(key);
        }
        self.inner.remove(names)
    }
}

impl<Inner: Shelf, Guard: Warden> Sealed<Inner, Guard> {
    /// Brings every line into the form that the lock wants now: sealed under the keys while they are
    /// here, open once there is no passcode. `keys` opens what lies sealed. Says how many were turned.
    ///
    /// # Errors
    /// [`Refusal`] of the shelf; what was not turned lies as it lay, and can be turned later.
    pub async fn turn(&self, from: &Lock) -> Result<usize, Refusal> {
        let to = self.warden.lock();
        let (mut put, mut gone) = (Vec::new(), Vec::new());
        for slip in self.inner.all().await? {
            if stands_well(&to, &slip) {
                continue;
            }
            let Some(read) = opened(from, slip.clone()).filter(|read| !is_sealed(&read.line))
            else {
                continue;
            };
            let turned = self.sealed(read);
            if turned.key != slip.key {
                gone.push(slip.key);
            }
            put.push(turned);
        }
        let count = put.len();
        if count > 0 {
            self.inner.put(put).await?;
            self.inner.remove(gone).await?;
        }
        Ok(count)
    }
}

/// Whether a line lies in the form that the lock wants.
fn stands_well(to: &Lock, slip: &Slip) -> bool {
    match to {
        Lock::Off => !is_sealed(&slip.line),
        Lock::Shut(_) => true,
        Lock::Open(_) => lies_open(&slip.key) || (is_sealed(&slip.line) && !is_letter(&slip.line)),
    }
}

/// Where the text of an archived case lies, for what is sealed.
fn text_of(id: CaseId) -> String {
    format!("archive/{id}")
}

/// Where the headline of an archived case lies, for what is sealed.
fn headline_of(id: CaseId) -> String {
    format!("headline/{id}")
}

/// A text of the archive, opened; broken ones stay as they lie, to be told as damaged.
fn read(lock: &Lock, place: &str, text: String) -> Result<String, Refusal> {
    match lock {
        _ if !is_sealed(&text) => Ok(text),
        Lock::Off => Ok(text),
        Lock::Shut(_) => Err(Refusal::Locked),
        Lock::Open(keys) => Ok(keys.open_text(place, &text).unwrap_or(text)),
    }
}

impl<Inner: Vault, Guard: Warden> Vault for Sealed<Inner, Guard> {
    async fn names(&self) -> Result<BTreeSet<CaseId>, Refusal> {
        if let Lock::Shut(_) = self.warden.lock() {
            return Ok(BTreeSet::new());
        }
        self.inner.names().await
    }

    async fn text(&self, id: CaseId) -> Result<Option<String>, Refusal> {
        let text = self.inner.text(id).await?;
        text.map(|text| read(&self.warden.lock(), &text_of(id), text)).transpose()
    }

    async fn texts(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        let lock = self.warden.lock();
        if let Lock::Shut(_) = lock {
            return Ok(BTreeMap::new());
        }
        let texts = self.inner.texts().await?.into_iter();
        texts.map(|(id, text)| Ok((id, read(&lock, &text_of(id), text)?))).collect()
    }

    async fn headlines(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        let lock = self.warden.lock();
        if let Lock::Shut(_) = lock {
            return Ok(BTreeMap::new());
        }
        let lines = self.inner.headlines().await?.into_iter();
        lines.map(|(id, line)| Ok((id, read(&lock, &headline_of(id), line)?))).collect()
    }

    async fn exchange(&self, new: Exchange) -> Result<(), Refusal> {
        let Exchange { id, before, text, headline } = new;
        let lock = self.warden.lock();
        // What lies there is compared as it lies: sealed, the same text never is the same twice.
        let lies = self.inner.text(id).await?;
        let says = lies.clone().map(|lies| read(&lock, &text_of(id), lies)).transpose()?;
        if says != before {
            return Err(Refusal::Overtaken);
        }
        let mut random = self.warden.random();
        let text = lock.seal_text(&text_of(id), text, &mut random);
        let headline = lock.seal_text(&headline_of(id), headline, &mut random);
        self.inner.exchange(Exchange { id, before: lies, text, headline }).await
    }
}

impl<Inner: Vault, Guard: Warden> Sealed<Inner, Guard> {
    /// Brings every text of the archive into the form that the lock wants now; see [`Sealed::turn`].
    ///
    /// # Errors
    /// [`Refusal`] of the archive; what was not turned lies as it lay, and can be turned later.
    pub async fn turn_texts(&self, from: &Lock) -> Result<usize, Refusal> {
        let sealing = matches!(self.warden.lock(), Lock::Open(_));
        let mut headlines = self.inner.headlines().await?;
        let mut count = 0;
        for id in self.inner.names().await? {
            let Some(lies) = self.inner.text(id).await? else { continue };
            let headline = headlines.remove(&id).unwrap_or_default();
            if is_sealed(&lies) == sealing && is_sealed(&headline) == sealing {
                continue;
            }
            let text = read(from, &text_of(id), lies.clone())?;
            let line = read(from, &headline_of(id), headline)?;
            if is_sealed(&text) {
                // Broken: it stays, to be told as damaged.
                continue;
            }
            let (lock, mut random) = (self.warden.lock(), self.warden.random());
            let text = lock.seal_text(&text_of(id), text, &mut random);
            let line = lock.seal_text(&headline_of(id), line, &mut random);
            let new = Exchange { id, before: Some(lies), text, headline: line };
            self.inner.exchange(new).await?;
            count += 1;
        }
        Ok(count)
    }
}
