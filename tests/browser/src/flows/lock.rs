//! The passcode: set, asked for, changed, taken off.

use super::around::home;
use crate::phone::Phone;
use serde_json::{Value as Json, json};

/// Whom nobody should forget.
pub const CODE: &str = "four wells north";

/// Sets a passcode, from the start screen, and comes back to it.
pub async fn set(phone: &mut Phone, code: &str) {
    phone.tap("Passcode").await;
    phone.headed("Passcode").await;
    phone.type_into("New passcode", code).await;
    phone.type_into("The same again", code).await;
    phone.tick("I know that a forgotten passcode is final").await;
    phone.go_on("Set the passcode").await;
    phone.see("Set. Everything is sealed.").await;
    home(phone).await;
}

/// Types a passcode where one is asked for.
pub async fn unlock(phone: &mut Phone, code: &str) {
    phone.type_into("Passcode", code).await;
    phone.tap("Unlock").await;
}

/// How many lines and texts lie open, and how many sealed, of all that is a patient's or the kit's; and
/// whether a word stands anywhere in any of it.
pub async fn lying(phone: &mut Phone, word: &str) -> (u64, u64, bool) {
    const COUNT: &str = "
        const [word, done] = arguments;
        const clinic = '/' + '0'.repeat(32) + '/';
        const texts = Object.entries(localStorage)
          .filter(([key]) => key.startsWith('freshet/entry/') && !key.includes(clinic))
          .map(([, line]) => line);
        const open = indexedDB.open('freshet');
        open.onerror = () => done(String(open.error));
        open.onsuccess = () => {
          const parts = ['entries', 'archive', 'headlines', 'photos'];
          const work = open.result.transaction(parts);
          for (const part of parts) {
            const walk = work.objectStore(part).openCursor();
            walk.onsuccess = () => {
              const at = walk.result;
              if (!at) return;
              const key = String(at.key);
              if (part !== 'entries' || (key.startsWith('freshet/entry/') && !key.includes(clinic)))
                texts.push(typeof at.value === 'string' ? at.value
                  : 'FRK1FRL1'.includes(String.fromCharCode(...at.value.slice(0, 4))) ? 'sealed:' : 'photo');
              at.continue();
            };
          }
          work.oncomplete = () => {
            open.result.close();
            const sealed = texts.filter((text) => text.startsWith('sealed:')).length;
            done([texts.length - sealed, sealed, texts.some((text) => text.includes(word))]);
          };
        };";
    let found = phone.client().execute_async(COUNT, vec![json!(word)]).await;
    let found = found.unwrap_or_else(|error| json!(error.to_string()));
    let number = |at: usize| found[at].as_u64().unwrap_or(u64::MAX);
    (number(0), number(1), found[2] != Json::Bool(false))
}
