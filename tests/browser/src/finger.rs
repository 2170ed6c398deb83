//! Fingers on the glass: touch events at places of the screen, one finger or two.

use crate::phone::Phone;
use serde_json::{Value as Json, json};
use std::time::Duration;

/// A place of the screen, or of a picture: to the right and down.
pub type Place = (f64, f64);

impl Phone {
    /// One finger comes down at the first place, runs through the others and is lifted.
    pub async fn stroke(&mut self, places: &[Place]) {
        self.fingers(&[places]).await;
    }

    /// One finger taps.
    pub async fn touch(&mut self, at: Place) {
        self.fingers(&[&[at]]).await;
        self.last_tap = Some(std::time::Instant::now());
    }

    /// Several fingers at once: they come down one after the other, run side by side, step by step,
    /// and are lifted.
    pub async fn fingers(&mut self, ways: &[&[Place]]) {
        self.note(&format!(
            "{} on the glass",
            if ways.len() == 1 { "a finger" } else { "fingers" }
        ));
        let fingers: Vec<Json> =
            ways.iter().enumerate().map(|(n, way)| finger(n, ways.len(), way)).collect();
        self.ask("actions", json!({"actions": fingers})).await;
    }
}

impl Phone {
    /// One finger holds a place, is lifted, and taps it again after a time.
    pub async fn hold_and_tap(&mut self, at: Place, hold: Duration, then: Duration) {
        self.note(&format!("hold for {hold:?}, tap after {then:?}"));
        let down = json!({"type": "pointerDown", "button": 0});
        let up = json!({"type": "pointerUp", "button": 0});
        let pause = |time: Duration| json!({"type": "pause", "duration": time.as_millis()});
        let (x, y) = at;
        let to =
            json!({"type": "pointerMove", "duration": 0, "origin": "viewport", "x": x, "y": y});
        let touch = pause(Duration::from_millis(60));
        let actions = json!([to, down, pause(hold), up, pause(then), down, touch, up]);
        let finger = json!({
            "type": "pointer", "id": "finger 0",
            "parameters": {"pointerType": "touch"}, "actions": actions,
        });
        self.ask("actions", json!({"actions": [finger]})).await;
    }

    /// A key by the driver's name for it, on what has the focus.
    pub async fn key(&mut self, key: &str) {
        self.note(&format!("press {}", key.escape_unicode()));
        let press = |kind: &str| json!({"type": kind, "value": key});
        let actions = json!([press("keyDown"), press("keyUp")]);
        let keys = json!({"type": "key", "id": "keys", "actions": actions});
        self.ask("actions", json!({"actions": [keys]})).await;
    }

    /// The same while another key is held.
    pub async fn key_with(&mut self, held: &str, key: &str) {
        self.note(&format!("press {} with {}", key.escape_unicode(), held.escape_unicode()));
        let press = |kind: &str, value: &str| json!({"type": kind, "value": value});
        let actions = json!([
            press("keyDown", held),
            press("keyDown", key),
            press("keyUp", key),
            press("keyUp", held),
        ]);
        let keys = json!({"type": "key", "id": "keys", "actions": actions});
        self.ask("actions", json!({"actions": [keys]})).await;
    }

    /// The same with the space bar, on what has the focus.
    pub async fn hold_and_tap_key(&mut self, hold: Duration, then: Duration) {
        self.note(&format!("hold the space bar for {hold:?}, tap it after {then:?}"));
        let down = json!({"type": "keyDown", "value": " "});
        let up = json!({"type": "keyUp", "value": " "});
        let pause = |time: Duration| json!({"type": "pause", "duration": time.as_millis()});
        let actions = json!([down, pause(hold), up, pause(then), down, up]);
        let keys = json!({"type": "key", "id": "keys", "actions": actions});
        self.ask("actions", json!({"actions": [keys]})).await;
    }
}

fn finger(number: usize, of: usize, way: &[Place]) -> Json {
    let to = |(x, y): &Place| json!({"type": "pointerMove", "duration": 0, "origin": "viewport", "x": x, "y": y});
    let press = |kind: &str| json!({"type": kind, "button": 0});
    let wait = |count: usize| vec![json!({"type": "pause", "duration": 10}); count];
    // One after the other: nobody's fingers come down in the same instant. None moves before all are
    // down.
    let mut actions = vec![to(&way[0])];
    actions.extend(wait(number));
    actions.push(press("pointerDown"));
    actions.extend(wait(of - number - 1));
    actions.extend(way[1..].iter().map(to));
    actions.push(press("pointerUp"));
    json!({
        "type": "pointer", "id": format!("finger {number}"),
        "parameters": {"pointerType": "touch"}, "actions": actions,
    })
}
