//! Fingers on the canvas, and what they do together: one draws, takes hold or moves the picture, two
//! pinch. Knows no browser, so that each case can be tried.

/// A place on the canvas: CSS pixels to the right and down.
pub type Place = (f64, f64);

/// A finger that moved less than this, in pixels, has tapped. A glove rolls further than bare skin.
const TAP: f64 = 9.0;
/// A second finger that comes before the first has moved this far, in pixels, means a pinch; later it
/// is a knuckle.
const EARLY: f64 = 30.0;
/// Places nearer to the last than this, in pixels, add nothing to a stroke.
const STEP: f64 = 1.0;

/// What one finger does that comes down alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// It draws.
    Draw,
    /// It has hold of something.
    Hold,
    /// It moves the picture.
    Slide,
}

/// What was done.
#[derive(Clone, Debug, PartialEq)]
pub enum Act {
    /// A tap.
    Tapped(Place),
    /// The stroke goes on; [`Hand::stroke`] has it.
    Drawing,
    /// A stroke, from end to end.
    Drew(Vec<Place>),
    /// What is held goes along.
    Pulled {
        /// From where it was taken.
        from: Place,
        /// To here.
        to: Place,
    },
    /// What was held is let go.
    LetGo,
    /// The stroke is none after all, or what was pulled goes back.
    Dropped,
    /// One finger moved the picture.
    Slid {
        /// From here.
        from: Place,
        /// To here.
        to: Place,
    },
    /// Two fingers moved and enlarged it.
    Pinched {
        /// From here.
        from: [Place; 2],
        /// To here.
        to: [Place; 2],
    },
}

/// One finger, as the browser names it.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Finger {
    id: i32,
    at: Place,
}

/// What the fingers are at.
#[derive(Clone, Debug, Default, PartialEq)]
enum Doing {
    /// Nothing, or waiting until all are lifted.
    #[default]
    Nothing,
    /// One does what its tool does, from where it came down.
    One { finger: Finger, tool: Tool, from: Place, moved: bool, way: f64 },
    /// Two pinch.
    Two([Finger; 2]),
}

/// The fingers on the canvas.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hand {
    doing: Doing,
    stroke: Vec<Place>,
    /// Fingers that are down and do nothing.
    idle: Vec<i32>,
}

impl Hand {
    /// The stroke that is being drawn.
    pub fn stroke(&self) -> &[Place] {
        &self.stroke
    }

    /// Whether no finger is down.
    pub fn is_off(&self) -> bool {
        self.doing == Doing::Nothing && self.idle.is_empty()
    }

    /// A finger comes down; alone, it does what `tool` says.
    pub fn down(&mut self, id: i32, at: Place, tool: Tool) -> Option<Act> {
        if !number(at) {
            return None;
        }
        // A finger whose lifting was never told is lifted.
        self.lifted(id);
        let finger = Finger { id, at };
        match self.doing {
            Doing::Nothing if self.idle.is_empty() => {
                self.stroke.clear();
                if tool == Tool::Draw {
                    self.stroke.push(at);
                }
                self.doing = Doing::One { finger, tool, from: at, moved: false, way: 0.0 };
                None
            }
            Doing::One { finger: first, tool, way, moved, .. } if way < EARLY => {
                self.doing = Doing::Two([first, finger]);
                self.stroke.clear();
                (moved && tool != Tool::Slide).then_some(Act::Dropped)
            }
            _ => {
                self.idle.push(id);
                None
            }
        }
    }

    /// A finger has moved.
    pub fn moved(&mut self, id: i32, at: Place) -> Option<Act> {
        if !number(at) {
            return None;
        }
        match &mut self.doing {
            Doing::One { finger, tool, from, moved, way } if finger.id == id => {
                let before = finger.at;
                let step = apart(before, at);
                if step < STEP {
                    return None;
                }
                finger.at = at;
                *way += step;
                if *tool == Tool::Draw {
                    self.stroke.push(at);
                }
                // Up to there it may still be a tap.
                *moved |= apart(*from, at) >= TAP;
                if !*moved {
                    return None;
                }
                Some(match tool {
                    Tool::Draw => Act::Drawing,
                    Tool::Hold => Act::Pulled { from: *from, to: at },
                    Tool::Slide => Act::Slid { from: before, to: at },
                })
            }
            Doing::Two(fingers) => {
                let from = fingers.map(|finger| finger.at);
                fingers.iter_mut().find(|finger| finger.id == id)?.at = at;
                Some(Act::Pinched { from, to: fingers.map(|finger| finger.at) })
            }
            _ => None,
        }
    }

    /// A finger is lifted.
    pub fn up(&mut self, id: i32) -> Option<Act> {
        match self.lifted(id)? {
            (_, false, at) => Some(Act::Tapped(at)),
            (Tool::Draw, true, _) => Some(Act::Drew(std::mem::take(&mut self.stroke))),
            (Tool::Hold, true, _) => Some(Act::LetGo),
            (Tool::Slide, true, _) => None,
        }
    }

    /// The browser or the phone took a finger away.
    pub fn lost(&mut self, id: i32) -> Option<Act> {
        let (tool, moved, _) = self.lifted(id)?;
        self.stroke.clear();
        (moved && tool != Tool::Slide).then_some(Act::Dropped)
    }

    /// Takes a finger off; gives what it did if it was at something alone: its tool, whether it moved
    /// and where it came down.
    fn lifted(&mut self, id: i32) -> Option<(Tool, bool, Place)> {
        self.idle.retain(|other| *other != id);
        match self.doing {
            Doing::One { finger, tool, moved, from, .. } if finger.id == id => {
                self.doing = Doing::Nothing;
                Some((tool, moved, from))
            }
            // The one that stays must not begin to draw.
            Doing::Two([a, b]) if a.id == id || b.id == id => {
                self.idle.push(if a.id == id { b.id } else { a.id });
                self.doing = Doing::Nothing;
                None
            }
            _ => None,
        }
    }
}

fn number(at: Place) -> bool {
    at.0.is_finite() && at.1.is_finite()
}

fn apart(a: Place, b: Place) -> f64 {
    (a.0 - b.0).hypot(a.1 - b.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A finger that comes down and runs through places.
    fn run(hand: &mut Hand, id: i32, tool: Tool, places: &[Place]) -> Option<Act> {
        let mut last = hand.down(id, places[0], tool);
        for at in &places[1..] {
            last = hand.moved(id, *at);
        }
        last
    }

    #[test]
    fn one_finger_draws() {
        let mut hand = Hand::default();
        let places = [(0.0, 0.0), (20.0, 0.0), (20.5, 0.0), (20.0, 20.0)];
        assert_eq!(run(&mut hand, 1, Tool::Draw, &places), Some(Act::Drawing));
        assert_eq!(hand.stroke().len(), 3, "half a pixel adds nothing");
        assert_eq!(hand.up(1), Some(Act::Drew(vec![places[0], places[1], places[3]])));
        assert!(hand.is_off() && hand.stroke().is_empty());
    }

    #[test]
    fn a_finger_that_rolls_has_tapped_where_it_came_down() {
        for tool in [Tool::Draw, Tool::Hold, Tool::Slide] {
            let mut hand = Hand::default();
            assert_eq!(run(&mut hand, 1, tool, &[(50.0, 50.0), (54.0, 53.0)]), None);
            assert_eq!(hand.up(1), Some(Act::Tapped((50.0, 50.0))));
        }
    }

    #[test]
    fn a_second_finger_that_comes_early_makes_it_a_pinch() {
        let mut hand = Hand::default();
        run(&mut hand, 1, Tool::Draw, &[(50.0, 50.0), (62.0, 50.0)]);
        assert_eq!(hand.down(2, (150.0, 50.0), Tool::Draw), Some(Act::Dropped));
        let from = [(62.0, 50.0), (150.0, 50.0)];
        let to = [(62.0, 50.0), (170.0, 50.0)];
        assert_eq!(hand.moved(2, (170.0, 50.0)), Some(Act::Pinched { from, to }));
        // The finger that stays does not draw, nor does another beside it.
        assert_eq!(hand.up(1), None);
        assert_eq!(hand.moved(2, (0.0, 0.0)), None);
        assert_eq!(run(&mut hand, 3, Tool::Draw, &[(0.0, 0.0), (90.0, 0.0)]), None);
        assert_eq!((hand.up(3), hand.up(2)), (None, None));
        assert!(hand.is_off());
        assert_eq!(run(&mut hand, 1, Tool::Draw, &[(0.0, 0.0), (90.0, 0.0)]), Some(Act::Drawing));
    }

    #[test]
    fn a_second_finger_that_comes_late_is_a_knuckle() {
        let mut hand = Hand::default();
        run(&mut hand, 1, Tool::Draw, &[(50.0, 50.0), (90.0, 50.0)]);
        assert_eq!(hand.down(2, (150.0, 50.0), Tool::Draw), None);
        assert_eq!(hand.moved(2, (190.0, 50.0)), None);
        assert_eq!(hand.moved(1, (90.0, 90.0)), Some(Act::Drawing));
        assert_eq!(hand.up(2), None);
        assert!(matches!(hand.up(1), Some(Act::Drew(stroke)) if stroke.len() == 3));
        assert!(hand.is_off());
    }

    #[test]
    fn what_is_held_goes_along_and_is_let_go_or_put_back() {
        let mut hand = Hand::default();
        let (from, to) = ((50.0, 50.0), (50.0, 65.0));
        assert_eq!(run(&mut hand, 1, Tool::Hold, &[from, to]), Some(Act::Pulled { from, to }));
        assert_eq!(hand.up(1), Some(Act::LetGo));
        run(&mut hand, 1, Tool::Hold, &[from, to]);
        assert_eq!(hand.lost(1), Some(Act::Dropped));
        run(&mut hand, 1, Tool::Hold, &[from, to]);
        assert_eq!(hand.down(2, (0.0, 0.0), Tool::Hold), Some(Act::Dropped));
    }

    #[test]
    fn a_slide_moves_step_by_step() {
        let mut hand = Hand::default();
        let places = [(0.0, 0.0), (0.0, 20.0), (0.0, 25.0)];
        let slid = Act::Slid { from: places[1], to: places[2] };
        assert_eq!(run(&mut hand, 1, Tool::Slide, &places), Some(slid));
        assert_eq!(hand.up(1), None);
        assert!(hand.is_off());
    }

    #[test]
    fn what_is_no_number_is_no_finger() {
        let mut hand = Hand::default();
        assert_eq!(hand.down(1, (f64::NAN, 0.0), Tool::Draw), None);
        assert!(hand.is_off());
        hand.down(1, (0.0, 0.0), Tool::Draw);
        assert_eq!(hand.moved(1, (0.0, f64::INFINITY)), None);
        assert_eq!(hand.stroke(), [(0.0, 0.0)]);
    }

    #[test]
    fn a_finger_that_was_never_lifted_comes_down_anew() {
        let mut hand = Hand::default();
        hand.down(1, (0.0, 0.0), Tool::Draw);
        assert_eq!(hand.down(1, (90.0, 0.0), Tool::Draw), None);
        assert_eq!(hand.stroke(), [(90.0, 0.0)]);
        assert_eq!(hand.up(1), Some(Act::Tapped((90.0, 0.0))));
    }
}
