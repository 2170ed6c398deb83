//! The deep shelf: IndexedDB, in transactions of strict durability.
//!
//! Written over `web-sys` and not with the crate `indexed_db_futures`, which was weighed first: when a
//! commit finds the disk full the browser only aborts the transaction and leaves the cause in its
//! `error`, and that crate consumes the transaction and reports a bare abort; an `open` that throws is
//! reported as a wrong version number; and it has no answer to a connection that hangs. To tell the
//! user "full" from "lost" is the point here, and what is needed is four calls.

use super::trouble::refusal;
use super::{Key, Refusal, Shelf, Slip};
use gloo_timers::future::TimeoutFuture;
use js_sys::{Array, Function, JsString, Object, Promise, Reflect};
use std::cell::{Cell, RefCell};
use std::future::poll_fn;
use std::pin::pin;
use std::rc::Rc;
use std::task::Poll;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbObjectStore, IdbOpenDbRequest, IdbRequest, IdbTransaction};

const DATABASE: &str = "freshet";
const VERSION: u32 = 1;
/// Lines by [`Key`]; those kept aside too, since their names tell them apart.
const STORE: &str = "entries";
/// How long an answer may take. Longer, and a connection is taken for dead, as WebKit's can be after
/// the phone slept.
const PATIENCE_MS: u32 = 4_000;
/// The same while the last question got no answer: in a hurry nobody is to wait at every tap.
const SHORT_PATIENCE_MS: u32 = 500;

/// IndexedDB of this browser.
#[derive(Clone, Copy, Debug, Default)]
pub struct Indexed;

impl Shelf for Indexed {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        keep(slips)
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        twice(async |database: &IdbDatabase| all(database).await)
    }
}

async fn keep(slips: Vec<Slip>) -> Result<(), Refusal> {
    twice(async |database| put(database, &slips).await).await
}

async fn put(database: &IdbDatabase, slips: &[Slip]) -> Result<(), Refusal> {
    let (transaction, store) = transact(database, "readwrite")?;
    for slip in slips {
        let (line, key) = (JsValue::from(&slip.line), JsValue::from(slip.key.as_str()));
        if let Err(error) = store.put_with_key(&line, &key) {
            // All or none; the abort fails only where the transaction has ended by itself.
            let _ = transaction.abort();
            return Err(refusal(&error));
        }
    }
    done(&transaction).await?;

    let (transaction, store) = transact(database, "readonly")?;
    let asked: Result<Vec<_>, _> =
        slips.iter().map(|slip| store.get(&JsValue::from(slip.key.as_str()))).collect();
    let asked = asked.map_err(|error| refusal(&error))?;
    done(&transaction).await?;
    let same = |(slip, request): (&Slip, &IdbRequest)| {
        request.result().is_ok_and(|line| line.as_string().is_some_and(|line| line == slip.line))
    };
    if slips.iter().zip(&asked).all(same) { Ok(()) } else { Err(Refusal::NotReadBack) }
}

async fn all(database: &IdbDatabase) -> Result<Vec<Slip>, Refusal> {
    let (transaction, store) = transact(database, "readonly")?;
    let keys = store.get_all_keys().map_err(|error| refusal(&error))?;
    let lines = store.get_all().map_err(|error| refusal(&error))?;
    done(&transaction).await?;
    let list = |request: &IdbRequest| request.result().map(|all| Array::from(&all));
    let keys = list(&keys).map_err(|error| refusal(&error))?;
    let lines = list(&lines).map_err(|error| refusal(&error))?;
    let slip = |(key, line): (JsValue, JsValue)| {
        Some(Slip { key: Key::read(&key.as_string()?)?, line: line.as_string()? })
    };
    Ok(keys.iter().zip(lines.iter()).filter_map(slip).collect())
}

/// Tries on a fresh connection once more what may have failed by the connection alone.
async fn twice<T>(work: impl AsyncFn(&IdbDatabase) -> Result<T, Refusal>) -> Result<T, Refusal> {
    match in_time(once(&work)).await {
        Err(why) if why.may_pass() => {
            CONNECTION.take();
            in_time(once(&work)).await
        }
        answer => answer,
    }
}

async fn once<T>(work: &impl AsyncFn(&IdbDatabase) -> Result<T, Refusal>) -> Result<T, Refusal> {
    let connection = connect().await?;
    work(&connection.database).await
}

/// Gives up on what takes too long. A transaction may still end well behind our back; to write the
/// same line again does no harm.
async fn in_time<T>(work: impl Future<Output = Result<T, Refusal>>) -> Result<T, Refusal> {
    let mut work = pin!(work);
    let mut late = pin!(TimeoutFuture::new(PATIENCE.get()));
    let answer = poll_fn(|context| match work.as_mut().poll(context) {
        Poll::Pending => late.as_mut().poll(context).map(|()| Err(Refusal::Silent)),
        ready @ Poll::Ready(_) => ready,
    })
    .await;
    let silent = matches!(answer, Err(Refusal::Silent));
    PATIENCE.set(if silent { SHORT_PATIENCE_MS } else { PATIENCE_MS });
    answer
}

thread_local! {
    static PATIENCE: Cell<u32> = const { Cell::new(PATIENCE_MS) };
    static CONNECTION: RefCell<Option<Rc<Connection>>> = const { RefCell::new(None) };
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
    let database: IdbDatabase = opened(&request).await?.unchecked_into();

    // A tab with a later version wants to change the form: stand aside, or it waits for ever.
    let standing = database.clone();
    let give_way = Closure::<dyn FnMut()>::new(move || standing.close());
    database.set_onversionchange(Some(give_way.as_ref().unchecked_ref()));
    let connection = Rc::new(Connection { database, _give_way: give_way });
    CONNECTION.set(Some(Rc::clone(&connection)));
    Ok(connection)
}

async fn opened(request: &IdbOpenDbRequest) -> Result<JsValue, Refusal> {
    let fresh = request.clone();
    // Freed when it has run. Where the database exists it never does, and these few bytes stay.
    let make = Closure::once_into_js(move || {
        if let Ok(database) = fresh.result() {
            // Version 1 is made from nothing. If this fails so does the open, which says why.
            let _ = database.unchecked_into::<IdbDatabase>().create_object_store(STORE);
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

fn transact(
    database: &IdbDatabase,
    mode: &str,
) -> Result<(IdbTransaction, IdbObjectStore), Refusal> {
    // By name, since `web-sys` counts the third argument among what may still change. A browser that
    // does not know it passes over it.
    let start = || -> Result<(IdbTransaction, IdbObjectStore), JsValue> {
        let options = Object::new();
        Reflect::set(&options, &JsString::from("durability"), &JsString::from("strict"))?;
        let begin: Function = Reflect::get(database, &JsString::from("transaction"))?.dyn_into()?;
        let given = Array::of3(&STORE.into(), &mode.into(), &options);
        let transaction: IdbTransaction = begin.apply(database, &given)?.dyn_into()?;
        let store = transaction.object_store(STORE)?;
        Ok((transaction, store))
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
