//! Screens of other shapes: a small phone upright and lying down, and text of twice the size.

use crate::phone::{Phone, SIZE};
use serde_json::json;

/// A way to hold a phone, or to read it.
struct Shape {
    name: &'static str,
    size: (u32, u32),
    /// Of the text, in hundredths of what it is.
    text: u32,
}

const SHAPES: [Shape; 4] = [
    Shape { name: "320 × 568", size: (320, 568), text: 100 },
    Shape { name: "lying, 568 × 320", size: (568, 320), text: 100 },
    Shape { name: "text of 200 %", size: SIZE, text: 200 },
    Shape { name: "text of 200 % on 320 × 568", size: (320, 568), text: 200 },
];

/// Enlarges the text as a reader's own setting does: everything is told in rem, which is this.
const ENLARGE: &str = "
    const root = document.documentElement;
    root.style.fontSize = '';
    if (arguments[0] !== 100) root.style.fontSize = `${parseFloat(getComputedStyle(root).fontSize) * arguments[0] / 100}px`;
    return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(true))));";

const FIT: &str = include_str!("fit.js");

impl Phone {
    /// Looks at the screen in each shape.
    pub(crate) async fn fits(&mut self, name: &str) {
        for shape in SHAPES {
            self.wear_shape(&shape).await;
            let found = self.run(FIT, vec![]).await;
            self.report(name, shape.name, &found);
        }
        self.wear_shape(&Shape { name: "", size: SIZE, text: 100 }).await;
    }

    async fn wear_shape(&mut self, shape: &Shape) {
        self.shape(shape.size).await;
        self.run(ENLARGE, vec![json!(shape.text)]).await;
    }
}
