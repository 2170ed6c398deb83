//! The browser is killed at random moments of played cases, between acts and within them, also while
//! it starts. Whatever the screen had acknowledged is there afterwards, every chain is whole, and what
//! the screen shows is what the journal says.
//!
//! `FRESHET_KILLS` says how often (15 by default, `DEVELOPERS.md` names the long run), `FRESHET_SEED`
//! repeats a run. The seed is printed.

use freshet::care::rounds::Round;
use freshet::case::{Case, CaseId, Entry, Journal};
use freshet::measure::Units;
use freshet_browser_tests::flows::look::type_refill;
use freshet_browser_tests::flows::solution::units;
use freshet_browser_tests::phone::Phone;
use serde_json::{Value as Json, json};
use std::collections::{BTreeMap, BTreeSet};
use std::time::{Duration, Instant};

crate::on_both_engines! { killed_at_random_moments }

/// What stands on the screen, and every line on both shelves, read together.
const ALL: &str = "
    const [done] = arguments;
    const near = Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/'))
      .map((key) => localStorage.getItem(key));
    const open = indexedDB.open('freshet');
    open.onerror = () => done(String(open.error));
    open.onsuccess = () => {
      const ask = open.result.transaction('entries').objectStore('entries').getAll();
      ask.onsuccess = () => {
        open.result.close();
        done({ near, deep: ask.result.filter((line) => typeof line === 'string' && /^[0-9a-f]{64} /.test(line)) });
      };
    };";
/// The screen and the near shelf in one breath: nothing can come between.
const NOW: &str = "
    return {
      heading: norm([...scope().querySelectorAll('h1, dialog h2')].filter(shown)[0]?.innerText),
      search: location.search,
      text: norm(scope().innerText),
      go: norm(next()[0]?.innerText),
      pale: find('option', 'Pale or white').length,
      lines: Object.keys(localStorage).filter((key) => key.startsWith('freshet/entry/'))
        .map((key) => localStorage.getItem(key)),
    };";

/// A tap in the first moment of a screen is taken for one that bounced: a user taps once more.
const AGAIN: Duration = Duration::from_secs(2);

/// The app itself gives the deep shelf twice four seconds before it says that a line is in one place
/// only; a slow disk may still take it behind the app's back.
const STANDS_APART: Duration = Duration::from_secs(20);

/// A disk under a loaded machine may be too slow for the app's patience, once in a while.
const WEAK: usize = 2;

/// Random numbers that a seed repeats (splitmix64).
struct Dice(u64);

impl Dice {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) % end
    }
}

/// A look at the screen.
struct Seen {
    heading: String,
    search: String,
    text: String,
    go: String,
    pale: bool,
    lines: BTreeSet<String>,
}

/// What the test knows.
struct Game {
    dice: Dice,
    /// Lines that the screen has acknowledged.
    acknowledged: BTreeSet<String>,
    /// The address that the case is at.
    place: String,
    /// Of each kind of moment, how often the browser was killed then.
    kills: BTreeMap<&'static str, usize>,
    acts: usize,
    /// After how many kills an entry was there that the screen had not acknowledged yet.
    under_way: usize,
    /// How often the app said that a line is in one place only.
    weak: usize,
}

fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok().map(|text| text.parse().unwrap_or_else(|_| panic!("{name}={text}")))
}

async fn killed_at_random_moments(mut phone: Phone) -> Phone {
    let kills = number("FRESHET_KILLS").unwrap_or(15);
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    let seed = number("FRESHET_SEED").unwrap_or(now.map_or(1, |now| now.as_secs()));
    println!("{}: {kills} kills, FRESHET_SEED={seed}", phone.title());
    let mut game = Game {
        dice: Dice(seed),
        acknowledged: BTreeSet::new(),
        place: String::new(),
        kills: BTreeMap::new(),
        acts: 0,
        under_way: 0,
        weak: 0,
    };
    phone.open().await;
    let begun = Instant::now();
    for number in 1..=kills {
        phone.note(&format!("towards kill {number}, seed {seed}"));
        for _ in 0..game.dice.below(3) {
            act(&mut phone, &mut game).await;
        }
        game.kill(&mut phone).await;
        game.come_back(&mut phone).await;
    }
    println!(
        "{}: killed {:?} in {} acts; {} entries, each there after every kill; after {} kills one more, not yet acknowledged; {} times a line was said to be in one place only; {} s",
        phone.title(),
        game.kills,
        game.acts,
        game.acknowledged.len(),
        game.under_way,
        game.weak,
        begun.elapsed().as_secs()
    );
    phone
}

async fn seen(phone: &mut Phone) -> Seen {
    let start = Instant::now();
    loop {
        let now = phone.try_run(NOW, vec![]).await.unwrap_or_default();
        let text = |name: &str| now[name].as_str().unwrap_or_default().to_owned();
        if !text("heading").is_empty() && !text("text").contains("Reading the records") {
            let lines = now["lines"].as_array().into_iter().flatten();
            return Seen {
                heading: text("heading"),
                search: text("search"),
                text: text("text"),
                go: text("go"),
                pale: now["pale"] != json!(0),
                lines: lines.filter_map(|line| line.as_str().map(str::to_owned)).collect(),
            };
        }
        if start.elapsed() > Duration::from_secs(15) {
            phone.fail(&format!("nothing is shown: {now}")).await;
        }
        tokio::time::sleep(Duration::from_millis(30)).await;
    }
}

/// Does what the screen asks for next, up to the tap that records something; the screen answers in its
/// own time.
async fn tap_on(phone: &mut Phone, dice: &mut Dice, seen: &Seen) {
    match seen.heading.as_str() {
        "Any of these now?" => phone.go_on("None of these").await,
        "What does the skin show?" if seen.pale => {
            phone.tick("Pale or white").await;
            phone.go_on("Urgent").await;
        }
        "What does the skin show?" => {
            type_refill(phone, ("5", "2")).await;
            phone.tick("Pale").await;
            phone.tap("Go on").await;
        }
        "And the patient?" => {
            phone.tick("6").await;
            phone.tap("Take down this look").await;
        }
        "Where is the skin without blood?" => {
            if !seen.go.contains("500 units/mL") {
                phone.tick("Upper lip").await;
            }
            phone.go_on("500 units/mL").await;
        }
        "Look again in" | "The look is due" if !seen.text.contains("Round 2 done") => {
            phone.tap("Look now").await;
        }
        "Look again in" | "The look is due" => {
            let url = phone.server.url();
            phone.go(&url).await;
            phone.see("New case").await;
        }
        "After round 1" => phone.tap("Prepare round 2").await,
        point
            if point.starts_with("Point ") && seen.text.contains("Undo ") && dice.below(8) == 0 =>
        {
            let last = seen.text.split("Undo ").nth(1).and_then(|rest| rest.split(' ').next());
            phone.tap(&format!("Undo {}", last.unwrap_or_default())).await;
        }
        _ if seen.text.contains("New case") => phone.tap("New case").await,
        _ => phone.go_on("").await,
    }
}

/// One act, waited for until the screen shows it, and what it then has acknowledged.
async fn act(phone: &mut Phone, game: &mut Game) {
    let before = seen(phone).await;
    tap_on(phone, &mut game.dice, &before).await;
    let start = Instant::now();
    let mut tapped = start;
    let mut last = before.heading.clone();
    loop {
        let now = seen(phone).await;
        // A tick alone changes neither. And a line is there before the screen shows it: two looks that
        // are the same are needed.
        let gone_on = now.heading != before.heading || now.lines != before.lines;
        if gone_on && now.text == last {
            break;
        }
        last = now.text;
        if start.elapsed() > Duration::from_secs(15) {
            phone.fail("after a tap the screen stays as it was").await;
        }
        if !gone_on && tapped.elapsed() > AGAIN {
            tap_on(phone, &mut game.dice, &before).await;
            tapped = Instant::now();
        }
        tokio::time::sleep(Duration::from_millis(60)).await;
    }
    game.acts += 1;
    // Some taps record two entries, one after the other: until both shelves are the same, one may
    // still be on its way.
    game.take_note(phone).await;
}

impl Game {
    /// What the screen shows now is acknowledged once both shelves hold it.
    async fn take_note(&mut self, phone: &mut Phone) {
        let (lines, weak) = agreed(phone).await;
        self.acknowledged.extend(lines);
        self.weak += usize::from(weak);
        let few = self.weak <= WEAK;
        phone.sure(few, "more than now and then a line was kept in one place only").await;
        self.place = seen(phone).await.search;
    }

    async fn kill(&mut self, phone: &mut Phone) {
        let moment = match self.dice.below(10) {
            0..=1 => {
                tokio::time::sleep(Duration::from_millis(self.dice.below(400))).await;
                "between acts"
            }
            2..=5 => {
                let before = seen(phone).await;
                tap_on(phone, &mut self.dice, &before).await;
                tokio::time::sleep(Duration::from_millis(self.dice.below(60))).await;
                "within an act"
            }
            6..=8 => self.as_soon_as_shown(phone).await,
            _ => {
                phone.reload_without_waiting().await;
                tokio::time::sleep(Duration::from_millis(self.dice.below(1_500))).await;
                "while it starts"
            }
        };
        *self.kills.entry(moment).or_default() += 1;
        phone.kill();
    }

    /// At the very moment that a point is shown as given: one tap, one entry, so that every line that
    /// lies there then is acknowledged.
    async fn as_soon_as_shown(&mut self, phone: &mut Phone) -> &'static str {
        let before = seen(phone).await;
        tap_on(phone, &mut self.dice, &before).await;
        if !before.heading.starts_with("Point ") {
            return "within an act";
        }
        let start = Instant::now();
        loop {
            let now = seen(phone).await;
            if now.heading != before.heading {
                self.acknowledged.extend(now.lines);
                return "as soon as a point is shown";
            }
            if start.elapsed() > AGAIN {
                return "within an act";
            }
        }
    }

    /// Starts again at the case, and compares what is there with what was acknowledged.
    async fn come_back(&mut self, phone: &mut Phone) {
        phone.start().await;
        let url = format!("{}{}", phone.server.url(), self.place);
        phone.go(&url).await;
        phone.settled().await;
        // Read, and the two made equal.
        let now = seen(phone).await;
        let before = self.acknowledged.len();
        self.take_note_of_start(phone).await;
        self.under_way += usize::from(self.acknowledged.len() > before);
        self.place = now.search;
        phone.pause().await;
        for word in ["amaged", "one place only", "not saved", "could not be read", "No such case"] {
            phone.sure(!now.text.contains(word), &format!("after a kill: {word:?}")).await;
        }
    }

    async fn take_note_of_start(&mut self, phone: &mut Phone) {
        let (lines, weak) = agreed(phone).await;
        phone.sure(!weak, "after a start a line is in one place only").await;
        let lost: Vec<&String> = self.acknowledged.difference(&lines).collect();
        phone.sure(lost.is_empty(), &format!("acknowledged and gone: {lost:#?}")).await;
        let mut cases: BTreeMap<CaseId, Vec<Entry>> = BTreeMap::new();
        for line in &lines {
            match Entry::read(line) {
                Ok(entry) => cases.entry(entry.case()).or_default().push(entry),
                Err(why) => phone.fail(&format!("{why:?}: {line}")).await,
            }
        }
        for (id, entries) in cases {
            let (journal, faults) = Journal::from_entries(id, entries);
            phone.sure(faults.is_empty(), &format!("{id}: {faults:?}")).await;
            self.compare(phone, &Case::of(&journal)).await;
        }
        self.acknowledged = lines;
    }

    /// Where the screen counts the points of this case, it counts those that the journal has.
    async fn compare(&self, phone: &mut Phone, case: &Case) {
        let now = seen(phone).await;
        if !now.search.contains(&case.id.to_string()) || !now.heading.starts_with("Point ") {
            return;
        }
        let round = case.treatment.rounds().last().map_or(Units::milli(0), Round::units);
        phone.reads("Given this round", &format!("{} units", units(round.raw()))).await;
    }
}

/// Waits until both shelves hold the same lines, and gives them; or what both hold, where the app has
/// said that it could not keep a line twice, which it mends with the next one.
async fn agreed(phone: &mut Phone) -> (BTreeSet<String>, bool) {
    let start = Instant::now();
    loop {
        let (near, deep) = shelves(phone).await;
        if near == deep {
            return (near, false);
        }
        if seen(phone).await.text.contains("one place only") {
            return (near.intersection(&deep).cloned().collect(), true);
        }
        if start.elapsed() > STANDS_APART {
            let near_only: Vec<_> = near.difference(&deep).collect();
            let deep_only: Vec<_> = deep.difference(&near).collect();
            let text = seen(phone).await.text;
            phone
                .fail(&format!(
                    "after {STANDS_APART:?} the shelves stay apart; of {} and {} lines the near one alone \
                     has {near_only:#?}, the deep one alone {deep_only:#?}; the screen says {text:?}",
                    near.len(),
                    deep.len()
                ))
                .await;
        }
        // Each question opens the database: asked without a breath, it would hold up what it waits for.
        tokio::time::sleep(Duration::from_millis(60)).await;
    }
}

async fn shelves(phone: &mut Phone) -> (BTreeSet<String>, BTreeSet<String>) {
    let all = phone.client().execute_async(ALL, vec![]).await;
    let all = all.unwrap_or_else(|error| json!(error.to_string()));
    let lines = |name: &str| -> BTreeSet<String> {
        all[name]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Json::as_str)
            .map(str::to_owned)
            .collect()
    };
    if all["near"].is_null() {
        phone.fail(&format!("the shelves cannot be read: {all}")).await;
    }
    (lines("near"), lines("deep"))
}
