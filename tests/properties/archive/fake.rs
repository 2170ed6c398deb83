//! A phone in memory: two shelves and an archive that break off after any operation.

use freshet::case::CaseId;
use freshet::store::archive::{Archived, Exchange, Vault};
use freshet::store::{Key, Refusal, Shelf, Slip};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::future::pending;
use std::pin::pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

/// What goes wrong.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Fate {
    #[default]
    Nothing,
    /// The browser is killed after so many operations.
    Kill(usize),
    /// The operation of this number is refused.
    Refuse(usize, Refusal),
    /// The operation of this number is done, but the answer gets lost.
    Answerless(usize),
}

#[derive(Clone, Debug, Default)]
struct Disk {
    near: BTreeMap<Key, String>,
    /// What the browser has put on the disk of it.
    flushed: BTreeMap<Key, String>,
    deep: BTreeMap<Key, String>,
    texts: BTreeMap<CaseId, String>,
    headlines: BTreeMap<CaseId, String>,
    fate: Fate,
    done: usize,
}

impl Disk {
    /// Does one operation as it is fated. None if the browser is dead.
    fn act<T>(&mut self, work: impl FnOnce(&mut Self) -> T) -> Option<Result<T, Refusal>> {
        let number = self.done;
        self.done += 1;
        match self.fate.clone() {
            Fate::Kill(after) if number >= after => None,
            Fate::Refuse(which, why) if number == which => Some(Err(why)),
            Fate::Answerless(which) if number == which => {
                work(self);
                Some(Err(Refusal::Silent))
            }
            _ => Some(Ok(work(self))),
        }
    }
}

/// The phone. Its parts share what it holds.
#[derive(Clone, Debug, Default)]
pub struct Phone(Rc<RefCell<Disk>>);

/// Its near shelf: each line is an operation of its own, lost by a kill unless flushed.
#[derive(Clone, Debug)]
pub struct Near(Phone);
/// Its deep shelf: all or none.
#[derive(Clone, Debug)]
pub struct Deep(Phone);
/// Its archive: all or none.
#[derive(Clone, Debug)]
pub struct Old(Phone);

impl Phone {
    pub fn parts(&self) -> (Near, Deep, Old) {
        (Near(self.clone()), Deep(self.clone()), Old(self.clone()))
    }

    /// What goes wrong from now on; gives how many operations there were before.
    pub fn fated(&self, fate: Fate) -> usize {
        let mut disk = self.0.borrow_mut();
        disk.fate = fate;
        std::mem::take(&mut disk.done)
    }

    /// The browser puts on the disk what the near shelf holds.
    pub fn flush(&self) {
        let mut disk = self.0.borrow_mut();
        disk.flushed = disk.near.clone();
    }

    /// The process ends; the near shelf is as it was flushed last.
    pub fn lose_unflushed(&self) {
        let mut disk = self.0.borrow_mut();
        disk.near = disk.flushed.clone();
    }

    /// The near shelf is found empty.
    pub fn lose_near(&self) {
        let mut disk = self.0.borrow_mut();
        disk.near.clear();
        disk.flushed.clear();
    }

    /// A phone of its own that holds the same.
    pub fn copied(&self) -> Self {
        Self(Rc::new(RefCell::new(self.0.borrow().clone())))
    }

    /// Every line that any place holds, wherever.
    pub fn everything(&self) -> BTreeSet<String> {
        let disk = self.0.borrow();
        let shelves = disk.near.values().chain(disk.deep.values()).cloned();
        let texts = disk.texts.values().flat_map(|text| text.lines().map(str::to_owned));
        shelves.chain(texts).collect()
    }

    /// Every line that a loss of power leaves.
    pub fn durable(&self) -> BTreeSet<String> {
        let copy = self.copied();
        copy.lose_unflushed();
        copy.everything()
    }

    pub fn near(&self) -> BTreeMap<Key, String> {
        self.0.borrow().near.clone()
    }

    pub fn deep(&self) -> BTreeMap<Key, String> {
        self.0.borrow().deep.clone()
    }

    pub fn texts(&self) -> BTreeMap<CaseId, String> {
        self.0.borrow().texts.clone()
    }

    pub fn archived(&self, id: CaseId) -> Option<Archived> {
        self.0.borrow().texts.get(&id).map(|text| Archived::read(id, text))
    }

    /// Lines come back, as by an older version or by a tab that still had them.
    pub fn put_back(&self, lines: &BTreeMap<Key, String>) {
        self.0.borrow_mut().near.extend(lines.clone());
    }

    pub fn headline(&self, id: CaseId, json: Option<&str>) {
        let mut disk = self.0.borrow_mut();
        match json {
            Some(json) => drop(disk.headlines.insert(id, json.to_owned())),
            None => drop(disk.headlines.remove(&id)),
        }
    }

    pub fn headline_of(&self, id: CaseId) -> Option<String> {
        self.0.borrow().headlines.get(&id).cloned()
    }

    pub fn text(&self, id: CaseId, text: &str) {
        self.0.borrow_mut().texts.insert(id, text.to_owned());
    }

    fn now<T>(&self, work: impl FnOnce(&mut Disk) -> T) -> Option<Result<T, Refusal>> {
        self.0.borrow_mut().act(work)
    }

    async fn later<T>(&self, work: impl FnOnce(&mut Disk) -> T) -> Result<T, Refusal> {
        // Not in one breath with what was asked before it.
        let mut asked = false;
        std::future::poll_fn(|_| {
            if asked {
                return Poll::Ready(());
            }
            asked = true;
            Poll::Pending
        })
        .await;
        match self.now(work) {
            Some(answer) => answer,
            None => pending().await,
        }
    }
}

fn slips(lines: &BTreeMap<Key, String>) -> Vec<Slip> {
    lines.iter().map(|(key, line)| Slip { key: key.clone(), line: line.clone() }).collect()
}

/// An answer that was there at once, or that never comes.
async fn told<T>(answer: Option<T>) -> T {
    match answer {
        Some(answer) => answer,
        None => pending().await,
    }
}

impl Shelf for Near {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let mut answer = Some(Ok(()));
        for slip in slips {
            answer = self.0.now(|disk| drop(disk.near.insert(slip.key, slip.line)));
            if !matches!(answer, Some(Ok(()))) {
                break;
            }
        }
        told(answer)
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        told(self.0.now(|disk| slips(&disk.near)))
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let mut answer = Some(Ok(()));
        for key in keys {
            answer = self.0.now(|disk| drop(disk.near.remove(&key)));
            if !matches!(answer, Some(Ok(()))) {
                break;
            }
        }
        told(answer)
    }
}

impl Shelf for Deep {
    fn put(&self, slips: Vec<Slip>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let phone = self.0.clone();
        async move {
            let put =
                |disk: &mut Disk| disk.deep.extend(slips.into_iter().map(|s| (s.key, s.line)));
            phone.later(put).await
        }
    }

    fn all(&self) -> impl Future<Output = Result<Vec<Slip>, Refusal>> + 'static {
        let phone = self.0.clone();
        async move { phone.later(|disk| slips(&disk.deep)).await }
    }

    fn remove(&self, keys: Vec<Key>) -> impl Future<Output = Result<(), Refusal>> + 'static {
        let phone = self.0.clone();
        async move { phone.later(|disk| disk.deep.retain(|key, _| !keys.contains(key))).await }
    }
}

impl Vault for Old {
    async fn names(&self) -> Result<BTreeSet<CaseId>, Refusal> {
        self.0.later(|disk| disk.texts.keys().copied().collect()).await
    }

    async fn text(&self, id: CaseId) -> Result<Option<String>, Refusal> {
        self.0.later(|disk| disk.texts.get(&id).cloned()).await
    }

    async fn texts(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        self.0.later(|disk| disk.texts.clone()).await
    }

    async fn headlines(&self) -> Result<BTreeMap<CaseId, String>, Refusal> {
        self.0.later(|disk| disk.headlines.clone()).await
    }

    async fn exchange(&self, new: Exchange) -> Result<(), Refusal> {
        let Exchange { id, before, text, headline } = new;
        let written = self.0.later(|disk| {
            if disk.texts.get(&id) != before.as_ref() {
                return Err(Refusal::Overtaken);
            }
            disk.texts.insert(id, text);
            disk.headlines.insert(id, headline);
            Ok(())
        });
        written.await?
    }
}

/// Runs a future to its end; none if the browser was killed.
pub fn run<T>(work: impl Future<Output = T>) -> Option<T> {
    let mut work = pin!(work);
    let mut context = Context::from_waker(Waker::noop());
    for _ in 0..10_000 {
        if let Poll::Ready(answer) = work.as_mut().poll(&mut context) {
            return Some(answer);
        }
    }
    None
}

/// Runs a future to its end; after so many steps something else comes between, or after its end.
pub fn run_beside<T>(work: impl Future<Output = T>, steps: usize, between: impl FnOnce()) {
    let mut work = pin!(work);
    let mut context = Context::from_waker(Waker::noop());
    let mut between = Some(between);
    for step in 0..10_000 {
        if step == steps
            && let Some(between) = between.take()
        {
            between();
        }
        if work.as_mut().poll(&mut context).is_ready() {
            break;
        }
    }
    if let Some(between) = between {
        between();
    }
}
