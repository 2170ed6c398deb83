//! From vial to filled syringes: how a strength is made.
//!
//! # The trade
//! The enzyme comes as a freeze-dried powder, so many units in a vial. It is dissolved in saline,
//! drawn into syringes and injected at a chosen strength. There are three ways to that strength.
//!
//! - **Whole vial.** Enough diluent goes into the vial that it has the strength itself: 1500 units
//!   in 3 mL are 500 per mL. Only the diluent is measured, so this is the surest; but the vial must
//!   be large enough, and a small syringe needs several strokes.
//! - **Stock, then dilute.** The usual way: 1500 units in 1 mL; 0.1, 0.2 or 0.4 mL of it made up to
//!   1 mL are 150, 300 or 600 per mL. Two more volumes are measured for each syringe.
//! - **Stepwise.** For weak strengths, where the one draw of stock would be too small for the marks:
//!   make up, mix, expel down to a mark, make up again.
//!
//! Every volume has to fall on a mark of the syringe in the hand. 500 per mL out of 1500 needs a
//! third of a millilitre, which no barrel shows; made up to 1 mL, 0.33 mL gives 495, while 0.3 mL
//! made up to 0.9 mL gives 500 exactly. [`plans`] looks for all of these, carries each out on a
//! bench that knows what a hand can do, and ranks what is left.
//!
//! # How to use it
//! Build an [`Ask`]; [`plans`] answers with one to six [`Plan`]s, best first, or says why it is
//! [`Impossible`] and what comes nearest. [`Plan::walk`] shows each [`Movement`] as a [`Stage`]:
//! the syringe and the vial before and after it. [`Plan::expected`] says how far the truth may lie
//! from the computed strength, by cause. The functions of single sums need no plan:
//! [`strength_of`], [`volume_for`], [`syringes_needed`], [`units_in_nozzle`].
//!
//! # What is exact
//! Units are conserved to the milli-unit: what is drawn is rounded once, and the rest is what is
//! left over from it. A plan's strength is the exact ratio. A plan never delivers less than was
//! asked for. The liquid in the nozzle below the zero mark is not counted as drawn; what it can do
//! is told apart, in [`Expected::nozzle`].

mod ask;
mod bench;
mod limits;
mod movement;
mod plan;
mod rank;
mod ratio;
mod recipe;
mod search;
mod spread;
mod sums;
mod syringe;

pub use ask::{Ask, Ceiling, Impossible, Vial, Wanted};
pub use bench::Broken;
pub use movement::{Change, Contents, Movement, Stage, Totals};
pub use plan::{Method, Plan, Reason, Step, Waste};
pub use rank::plans;
pub use spread::{Expected, Spread};
pub use sums::{Cost, Drawn, strength_of, syringes_needed, units_in_nozzle, volume_for};
pub use syringe::{Syringe, Tolerance, Unfit};
