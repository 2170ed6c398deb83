//! Screens of other shapes: a small phone upright and lying down, and text of twice the size.

use crate::engine::Engine;
use crate::phone::{Phone, SIZE};
use serde_json::json;

/// A way to hold a phone, or to read it.
struct Shape {
    name: &'static str,
    size: (u32, u32),
    /// Of the text, in hundredths of what it is.
    text: u32,
}

const SHAPES: [Shape; 3] = [
    Shape { name: "320 × 568", size: (320, 568), text: 100 },
    Shape { name: "lying, 568 × 320", size: (568, 320), text: 100 },
    Shape { name: "text of 200 %", size: SIZE, text: 200 },
];

const FIT: &str = include_str!("fit.js");

impl Phone {
    /// Looks at the screen in each shape.
    pub(crate) async fn fits(&mut self, name: &str) {
        for Shape { name: shape, size, text } in SHAPES {
            // A setting of the whole browser, which WebKitGTK's takes at its start only.
            if text != 100 && self.engine == Engine::WebKit {
                continue;
            }
            self.shape(size).await;
            self.set_text(text).await;
            let found = self.run(FIT, vec![json!(self.engine == Engine::WebKit)]).await;
            self.report(name, shape, &found);
        }
        self.shape(SIZE).await;
        self.set_text(100).await;
        // A tap right after it was lost once on a busy machine, and no hand is as quick.
        if self.engine == Engine::WebKit {
            self.pause().await;
        }
    }
}
