//! The gate of this browser: whether a passcode is set, and who has the keys in this tab.
//!
//! The ring is kept twice, like a line of the journal, since without it every record is lost. Where
//! the two differ, a change of the passcode broke off: either opens until both are the new one. Keys
//! live in this tab's memory alone; a page that is loaded again begins locked.

use super::database::{Part, delete, read, twice, write};
use super::local::storage;
use super::lock::{Lock, Warden};
use super::trouble::refusal;
use super::{Refusal, drafts, here, photos};
use crate::measure::{Moment, Span};
use crate::phone::random::{Dice, NoRandomness};
use crate::seal::{Cost, Keys, Ring, RingError, Tries};
use gloo_storage::{LocalStorage, Storage};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use web_sys::IdbDatabase;

/// Names no line of the journal.
const NAME: &str = "freshet/ring";
/// Wrong passcodes in a row; no record either.
const TRIES: &str = "freshet/tries";

thread_local! {
    static HERE: RefCell<State> = RefCell::default();
}

#[derive(Default)]
struct State {
    lock: Lock,
    rings: Vec<Ring>,
    unread: Option<RingError>,
}

/// The gate of this browser.
#[derive(Clone, Copy, Debug, Default)]
pub struct Gate;

impl Warden for Gate {
    type Random = Dice;

    fn lock(&self) -> Lock {
        HERE.with_borrow(|state| state.lock.clone())
    }

    fn random(&self) -> Dice {
        Dice
    }
}

/// How the gate stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Standing {
    /// No passcode is set.
    #[default]
    Unset,
    /// The keys are away.
    Shut,
    /// The keys are here.
    Open,
    /// There are keys, but not for this version of the app, or what is left of them cannot be read.
    Broken(RingError),
}

/// Why the gate did not do what was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GateError {
    /// Not the passcode.
    Wrong,
    /// Too many wrong ones: to wait for so long.
    Wait(Span),
    /// The browser gives no random bits.
    NoRandomness,
    /// The storage refused; what was sealed stays sealed.
    Refused(Refusal),
}

impl From<Refusal> for GateError {
    fn from(why: Refusal) -> Self {
        Self::Refused(why)
    }
}

impl From<NoRandomness> for GateError {
    fn from(_: NoRandomness) -> Self {
        Self::NoRandomness
    }
}

/// How the gate stands now.
pub fn standing() -> Standing {
    HERE.with_borrow(|state| match (&state.lock, state.unread) {
        (Lock::Open(_), _) => Standing::Open,
        (Lock::Shut(_), _) => Standing::Shut,
        (Lock::Off, Some(why)) => Standing::Broken(why),
        (Lock::Off, None) => Standing::Unset,
    })
}

/// Looks which passcode is set, as before each reading and each use of a passcode: another tab may have
/// set one, changed it or taken it off. Keys that are here stay here while they are those of the ring.
/// Where no ring is found and a place could not be read, everything stays as it was.
pub async fn arrive() -> Standing {
    let looked = [near(), deep().await];
    let told = looked.iter().all(Result::is_ok);
    let texts = looked.into_iter().flatten().flatten();
    let read: Vec<_> = texts.map(|text| Ring::read(&text)).collect();
    if read.is_empty() && !told {
        return standing();
    }
    let unread = read.iter().find_map(|ring| ring.as_ref().err().copied());
    let mut rings: Vec<Ring> = read.into_iter().flatten().collect();
    rings.dedup();
    HERE.with_borrow_mut(|state| {
        state.unread = unread.filter(|_| rings.is_empty());
        state.lock = match (&state.lock, rings.first()) {
            (_, None) => Lock::Off,
            (Lock::Open(keys), Some(ring)) if ring.is_of(keys) => Lock::Open(keys.clone()),
            // A letter to keys that are no more would never be opened again.
            (Lock::Shut(letterbox), Some(ring))
                if state.rings.iter().any(|known| known.shares_keys(ring)) =>
            {
                Lock::Shut(letterbox.clone())
            }
            (_, Some(ring)) => shut(ring),
        };
        state.rings = rings;
    });
    standing()
}

fn shut(ring: &Ring) -> Lock {
    ring.letterbox(&mut Dice).map_or(Lock::Off, |letterbox| Lock::Shut(Rc::new(letterbox)))
}

/// Opens the gate, and seals what was written while it was shut, or before a passcode was set and the
/// sealing broke off.
///
/// # Errors
/// [`GateError::Wrong`]. What could not be sealed anew is as it was, and is tried the next time.
pub async fn unlock(passcode: &str, now: Moment) -> Result<(), GateError> {
    arrive().await;
    let (ring, keys) = tried(passcode, now)?;
    let lock = Lock::Open(Rc::new(keys));
    HERE.with_borrow_mut(|state| state.lock = lock.clone());
    // A change of the passcode that broke off is settled by the one that was used.
    let _ = keep(&ring).await;
    HERE.with_borrow_mut(|state| state.rings = vec![ring]);
    let _ = turn(&lock).await;
    Ok(())
}

/// Puts the keys away.
pub fn lock() {
    HERE.with_borrow_mut(|state| {
        if let (Lock::Open(_), Some(ring)) = (&state.lock, state.rings.first()) {
            state.lock = shut(ring);
        }
    });
}

/// Sets a passcode where none is, and seals everything.
///
/// # Errors
/// [`GateError`]; either no passcode is set, or it is and the rest is sealed at the next unlocking.
pub async fn set(passcode: &str) -> Result<(), GateError> {
    crate::phone::random::bits()?;
    // Another ring in place of one that is would be the end of all that is sealed under it.
    if near()?.is_some() || deep().await?.is_some() {
        arrive().await;
        return Err(GateError::Refused(Refusal::Overtaken));
    }
    let (ring, keys) = Ring::forge(passcode, Cost::OWASP, &mut Dice);
    if let Err(why) = keep(&ring).await {
        // With one ring only, a lost database would be the end of every record.
        let _ = forget().await;
        return Err(why.into());
    }
    let lock = Lock::Open(Rc::new(keys));
    HERE.with_borrow_mut(|state| {
        state.lock = lock.clone();
        state.rings = vec![ring];
    });
    Ok(turn(&lock).await?)
}

/// Sets another passcode in place of the one that is. No record is written anew.
///
/// # Errors
/// [`GateError`]; the old passcode opens still, and perhaps the new one too.
pub async fn change(old: &str, new: &str, now: Moment) -> Result<(), GateError> {
    arrive().await;
    let (_, keys) = tried(old, now)?;
    let ring = Ring::of(&keys, new, Cost::OWASP, &mut Dice);
    keep(&ring).await?;
    HERE.with_borrow_mut(|state| state.rings = vec![ring]);
    Ok(())
}

/// Takes the passcode off: everything lies open again.
///
/// # Errors
/// [`GateError`]; then the passcode is set still, and opens what is sealed.
pub async fn clear(passcode: &str, now: Moment) -> Result<(), GateError> {
    arrive().await;
    let (_, keys) = tried(passcode, now)?;
    let open = Lock::Open(Rc::new(keys));
    HERE.with_borrow_mut(|state| state.lock = Lock::Off);
    let done = async {
        turn(&open).await?;
        // Last: what is left sealed without it is lost.
        forget().await
    };
    if let Err(why) = done.await {
        HERE.with_borrow_mut(|state| state.lock = open);
        return Err(why.into());
    }
    HERE.with_borrow_mut(|state| state.rings.clear());
    Ok(())
}

/// How long to wait before the next try; none if it may be now.
pub fn wait(now: Moment) -> Option<Span> {
    tries().settled(now).wait(now)
}

/// The ring that a passcode opens, and its keys. Wrong ones are counted.
fn tried(passcode: &str, now: Moment) -> Result<(Ring, Keys), GateError> {
    let tries = tries().settled(now);
    if let Some(wait) = tries.wait(now) {
        return Err(GateError::Wait(wait));
    }
    // Counted before it is known: who reloads the page in between gains no try.
    let _ = LocalStorage::set(TRIES, tries.wrong(now));
    let rings = HERE.with_borrow(|state| state.rings.clone());
    let opened = rings.into_iter().find_map(|ring| {
        let keys = ring.open(passcode).ok()?;
        Some((ring, keys))
    });
    if opened.is_some() {
        LocalStorage::delete(TRIES);
    }
    opened.ok_or(GateError::Wrong)
}

fn tries() -> Tries {
    storage().ok().and_then(|_| LocalStorage::get(TRIES).ok()).unwrap_or_default()
}

/// Brings everything on this phone into the form that the lock wants now.
async fn turn(from: &Lock) -> Result<(), Refusal> {
    drafts::turn(from);
    here::turn(from).await?;
    photos::turn(from).await
}

fn near() -> Result<Option<String>, Refusal> {
    storage()?.get_item(NAME).map_err(|error| refusal(&error))
}

async fn deep() -> Result<Option<String>, Refusal> {
    let found = twice(Part::Entries, async |database: &IdbDatabase| {
        read(database, Part::Entries, std::iter::once(&JsValue::from(NAME))).await
    });
    Ok(found.await?.pop().and_then(|value| value.as_string()))
}

/// Keeps a ring twice: first where it is sure.
async fn keep(ring: &Ring) -> Result<(), Refusal> {
    let text = ring.text();
    let pair = [(JsValue::from(NAME), JsValue::from(&text))];
    twice(Part::Entries, async |database: &IdbDatabase| {
        write(database, Part::Entries, &pair).await
    })
    .await?;
    if deep().await?.as_ref() != Some(&text) {
        return Err(Refusal::NotReadBack);
    }
    storage()?.set_item(NAME, &text).map_err(|error| refusal(&error))?;
    if near()?.as_ref() == Some(&text) { Ok(()) } else { Err(Refusal::NotReadBack) }
}

/// Lets go of both rings: last of the one that other tabs hear of, so that they find neither.
async fn forget() -> Result<(), Refusal> {
    let name = [JsValue::from(NAME)];
    twice(Part::Entries, async |database| delete(database, Part::Entries, &name).await).await?;
    storage()?.remove_item(NAME).map_err(|error| refusal(&error))
}

/// Whether a change under this name in localStorage is one of the passcode; without a name everything
/// there was cleared.
pub fn is_told_by(name: Option<&str>) -> bool {
    name.is_none_or(|name| name == NAME)
}
