//! The database of this browser: its form, its connection, its transactions of strict durability.
//!
//! Written over `web-sys` and not with the crate `indexed_db_futures`, which was weighed first: when a
//! commit finds the disk full the browser only aborts the transaction and leaves the cause in its
//! `error`, and that crate consumes the transaction and reports a bare abort; an `open` that throws is
//! reported as a wrong version number; and it has no answer to a connection that hangs. To tell the
//! user "full" from "lost" is the point here, and what is needed is four calls.

use super::Refusal;
use super::trouble::refusal;
use gloo_timers::future::TimeoutFuture;
use js_sys::{Array, Function, JsString, Object, Promise, Reflect};
use std::cell::{Cell, RefCell};
use std::future::poll_fn;
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;
use std::thread::LocalKey;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbRequestReadyState, IdbTransaction,
};

const DATABASE: &str = "freshet";
/// The form of the database. Version 1 had entries only, 2 had photos too.
const VERSION: u32 = 3;

/// What the database holds: each an object store of its own.
#[derive(Clone, Copy, Debug)]
pub(super) enum Part {
    /// Lines by [`super::Key`]; those kept aside too, since their names tell them apart.
    Entries,
    /// Photos by the digest of their bytes.
    Photos,
    /// All lines of a case as one text, by the case.
    Archive,
    /// The case in a few lines, by the case, of each that has a text in the archive.
    Headlines,
}

impl Part {
    const ALL: [Self; 4] = [Self::Entries, Self::Photos, Self::Archive, Self::Headlines];

    const fn name(self) -> &'static str {
        match self {
            Self::Entries => "entries",
            Self::Photos => "photos",
            Self::Archive => "archive",
            Self::Headlines => "headlines",
        }
    }

    /// How long an answer may take, in milliseconds. Longer, and a connection is taken for dead, as
    /// WebKit's can be after the phone slept. Shorter while the last question got no answer: in a
    /// hurry nobody is to wait at every tap. A photo or a whole case is hundreds of times as large as
    /// a line, and nobody waits for it with a needle in the hand.
    const fn patience(self, silent: bool) -> u32 {
        match (self, silent) {
            (Self::Entries, false) => 4_000,
            (Self::Entries, true) => 500,
            (_, false) => 10_000,
            (_, true) => 2_000,
        }
    }

    /// Whether the last question got no answer in time. Each part has its own, so that a slow photo
    /// or archive takes no patience from the journal.
    const fn silent(self) -> &'static LocalKey<Cell<bool>> {
        match self {
            Self::Entries => &ENTRIES_SILENT,
            Self::Photos => &PHOTOS_SILENT,
            Self::Archive | Self::Headlines => &ARCHIVE_SILENT,
        }
    }
}

thread_local! {
    static ENTRIES_SILENT: Cell<bool> = const { Cell::new(false) };
    static PHOTOS_SILENT: Cell<bool> = const { Cell::new(false) };
    static ARCHIVE_SILENT: Cell<bool> = const { Cell::new(false) };
    static CONNECTION: RefCell<Option<Rc<Connection>>> = const { RefCell::new(None) };
}

/// Tries on a fresh connection once more what may have failed by the connection alone.
pub(super) async fn twice<T>(
    part: Part,
    work: impl AsyncFn(&IdbDatabase) -> Result<T, Refusal>,
) -> Result<T, Refusal> {
    match in_time(part, once(&work)).await {
        Err(why) if why.may_pass() => {
            CONNECTION.take();
            in_time(part, once(&work)).await
        }
        answer => answer,
    }
}

async fn once<T>(work: &impl AsyncFn(&IdbDatabase) -> Result<T, Refusal>) -> Result<T, Refusal> {
    let connection = connect().await?;
    work(&connection.database).await
}

/// Gives up on what takes too long. A transaction may still end well behind our back; to write the
/// same again does no harm.
async fn in_time<T>(
    part: Part,
    work: impl Future<Output = Result<T, Refusal>>,
) -> Result<T, Refusal> {
    let mut work = pin!(work);
    let mut late = pin!(TimeoutFuture::new(part.patience(part.silent().get())));
    let answer = poll_fn(|context| match work.as_mut().poll(context) {
        Poll::Pending => late.as_mut().poll(context).map(|()| Err(Refusal::Silent)),
        ready @ Poll::Ready(_) => ready,
    })
    .await;
    part.silent().set(matches!(answer, Err(Refusal::Silent)));
    answer
}

/// Puts values under their keys, all or none, and waits until they are on the disk.
pub(super) async fn write(
    database: &IdbDatabase,
    part: Part,
    pairs: &[(JsValue, JsValue)],
) -> Result<(), Refusal> {
    let (transaction, store) = transact(database, part, "readwrite")?;
    for (key, value) in pairs {
        if let Err(error) = store.put_with_key(value, key) {
            // All or none; the abort fails only where the transaction has ended by itself.
            let _ = transaction.abort();
            return Err(refusal(&error));
        }
    }
    done(&transaction).await
}

/// Takes away what lies under the keys, all or none, and waits until the disk knows.
pub(super) async fn delete(
    database: &IdbDatabase,
    part: Part,
    keys: &[JsValue],
) -> Result<(), Refusal> {
    let (transaction, store) = transact(database, part, "readwrite")?;
    for key in keys {
        if let Err(error) = store.delete(key) {
            let _ = transaction.abort();
            return Err(refusal(&error));
        }
    }
    done(&transaction).await
}

/// Writes under one key into two parts at once, both or neither, if the first of them still holds
/// what was read there before: one transaction, so that no other tab comes between.
pub(super) async fn exchange(
    database: &IdbDatabase,
    key: &JsValue,
    before: &JsValue,
    new: [(Part, JsValue); 2],
) -> Result<(), Refusal> {
    let transaction = begin(database, &[new[0].0, new[1].0], "readwrite")?;
    let store = |part: Part| transaction.object_store(part.name()).map_err(|error| refusal(&error));
    let stores = [store(new[0].0)?, store(new[1].0)?];
    let there = stores[0].get(key).map_err(|error| refusal(&error))?;
    let outcome = Rc::new(RefCell::new(Ok(())));
    let go_on = {
        let (asked, key, before) = (there.clone(), key.clone(), before.clone());
        let (change, told) = (transaction.clone(), Rc::clone(&outcome));
        Closure::<dyn FnMut()>::new(move || {
            let put = |(store, (_, value)): (&IdbObjectStore, &(Part, JsValue))| {
                store.put_with_key(value, &key).map(drop).map_err(|error| refusal(&error))
            };
            let written = if asked.result().is_ok_and(|found| found == before) {
                stores.iter().zip(&new).try_for_each(put)
            } else {
                Err(Refusal::Overtaken)
            };
            if written.is_err() {
                *told.borrow_mut() = written;
                // Neither of the two; it fails only where the transaction has ended by itself.
                let _ = change.abort();
            }
        })
    };
    there.set_onsuccess(Some(go_on.as_ref().unchecked_ref()));
    let ended = done(&transaction).await;
    // Nobody calls it any more.
    drop(go_on);
    outcome.replace(Ok(())).and(ended)
}

/// Every key.
pub(super) async fn read_keys(database: &IdbDatabase, part: Part) -> Result<Vec<JsValue>, Refusal> {
    let (transaction, store) = transact(database, part, "readonly")?;
    let lists = answers(&transaction, store.get_all_keys().map(|keys| vec![keys])).await?;
    Ok(lists.iter().flat_map(|keys| Array::from(keys).to_vec()).collect())
}

/// What lies under the keys, in their order; `undefined` where nothing does.
pub(super) async fn read<'a>(
    database: &IdbDatabase,
    part: Part,
    keys: impl Iterator<Item = &'a JsValue>,
) -> Result<Vec<JsValue>, Refusal> {
    let (transaction, store) = transact(database, part, "readonly")?;
    let asked: Result<Vec<_>, _> = keys.map(|key| store.get(key)).collect();
    answers(&transaction, asked).await
}

/// Every key and every value, in the same order.
pub(super) async fn read_all(
    database: &IdbDatabase,
    part: Part,
) -> Result<Vec<(JsValue, JsValue)>, Refusal> {
    let (transaction, store) = transact(database, part, "readonly")?;
    let asked = store.get_all_keys().and_then(|keys| Ok(vec![keys, store.get_all()?]));
    let lists = answers(&transaction, asked).await?;
    let [keys, values] = lists.as_slice() else { return Ok(Vec::new()) };
    Ok(Array::from(keys).iter().zip(Array::from(values).iter()).collect())
}

/// Waits for the end of a transaction and takes the answers to what it was asked.
async fn answers(
    transaction: &IdbTransaction,
    asked: Result<Vec<IdbRequest>, JsValue>,
) -> Result<Vec<JsValue>, Refusal> {
    let asked = asked.map_err(|error| refusal(&error))?;
    done(transaction).await?;
    let told: Result<Vec<_>, _> = asked.iter().map(IdbRequest::result).collect();
    told.map_err(|error| refusal(&error))
}

/// An open database, closed when the last user lets go of it.
struct Connection {
    database: IdbDatabase,
    _give_way: Closure<dyn FnMut()>,
}

impl Drop for Connection {
    fn drop(&mut self) {
        self.database.set_onversionchange(None);
        self.database.close();
    }
}

async fn connect() -> Result<Rc<Connection>, Refusal> {
    if let Some(connection) = CONNECTION.with_borrow(Clone::clone) {
        return Ok(connection);
    }
    let window = web_sys::window().ok_or(Refusal::Absent)?;
    let factory = window.indexed_db().map_err(|error| refusal(&error))?.ok_or(Refusal::Absent)?;
    let request = factory.open_with_u32(DATABASE, VERSION).map_err(|error| refusal(&error))?;
    let database: IdbDatabase = opened(&Opening(request)).await?.unchecked_into();

    // A tab with a later version wants to change the form: stand aside, or it waits for ever.
    let standing = database.clone();
    let give_way = Closure::<dyn FnMut()>::new(move || standing.close());
    database.set_onversionchange(Some(give_way.as_ref().unchecked_ref()));
    let connection = Rc::new(Connection { database, _give_way: give_way });
    CONNECTION.set(Some(Rc::clone(&connection)));
    Ok(connection)
}

/// A database being opened. If nobody waits for it any more it is closed as soon as it comes: open
/// and unknown, it would stand in the way of a later form.
struct Opening(IdbOpenDbRequest);

impl Drop for Opening {
    fn drop(&mut self) {
        if self.0.ready_state() == IdbRequestReadyState::Pending {
            let request = self.0.clone();
            let close = Closure::once_into_js(move || {
                if let Ok(database) = request.result() {
                    database.unchecked_into::<IdbDatabase>().close();
                }
            });
            self.0.set_onsuccess(Some(close.unchecked_ref()));
        }
    }
}

async fn opened(Opening(request): &Opening) -> Result<JsValue, Refusal> {
    let fresh = request.clone();
    // Freed when it has run. Where the database has its form it never does, and these few bytes stay.
    let make = Closure::once_into_js(move || {
        if form(&fresh).is_err()
            && let Some(change) = fresh.transaction()
        {
            // Neither the new form nor half of it: the open fails, and what was there stays.
            let _ = change.abort();
        }
    });
    request.set_onupgradeneeded(Some(make.unchecked_ref()));
    let blocked = JsValue::from("blocked");
    let wait = Promise::new(&mut |resolve: Function, reject: Function| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
        let reject = reject.bind1(&JsValue::UNDEFINED, &blocked);
        request.set_onblocked(Some(reject.unchecked_ref()));
    });
    match JsFuture::from(wait).await {
        Ok(_) => request.result().map_err(|error| refusal(&error)),
        Err(why) if why == blocked => Err(Refusal::Blocked),
        Err(_) => Err(cause(request.error().ok().flatten())),
    }
}

/// Makes the parts that are not there, whatever the form was before. Those that are stay untouched.
fn form(request: &IdbOpenDbRequest) -> Result<(), JsValue> {
    let database: IdbDatabase = request.result()?.unchecked_into();
    let there = database.object_store_names();
    for part in Part::ALL {
        if !there.contains(part.name()) {
            database.create_object_store(part.name())?;
        }
    }
    Ok(())
}

fn transact(
    database: &IdbDatabase,
    part: Part,
    mode: &str,
) -> Result<(IdbTransaction, IdbObjectStore), Refusal> {
    let transaction = begin(database, &[part], mode)?;
    let store = transaction.object_store(part.name()).map_err(|error| refusal(&error))?;
    Ok((transaction, store))
}

fn begin(database: &IdbDatabase, parts: &[Part], mode: &str) -> Result<IdbTransaction, Refusal> {
    // By name, since `web-sys` counts the third argument among what may still change. A browser that
    // does not know it passes over it.
    let start = || -> Result<IdbTransaction, JsValue> {
        let options = Object::new();
        Reflect::set(&options, &JsString::from("durability"), &JsString::from("strict"))?;
        let begin: Function = Reflect::get(database, &JsString::from("transaction"))?.dyn_into()?;
        let names: Array = parts.iter().map(|part| JsValue::from(part.name())).collect();
        let given = Array::of3(&names, &mode.into(), &options);
        begin.apply(database, &given)?.dyn_into()
    };
    start().map_err(|error| refusal(&error))
}

/// Waits for the end of a transaction. Only `complete` is success: a request may succeed and the
/// commit still fail.
async fn done(transaction: &IdbTransaction) -> Result<(), Refusal> {
    let wait = Promise::new(&mut |resolve: Function, reject: Function| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
    });
    match JsFuture::from(wait).await {
        Ok(_) => Ok(()),
        Err(_) => Err(cause(transaction.error())),
    }
}

fn cause(error: Option<web_sys::DomException>) -> Refusal {
    error.map_or_else(|| Refusal::Lost("no cause given".to_owned()), |error| refusal(&error))
}
