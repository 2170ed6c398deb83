//! The rules of the trade, as pure functions. They take what they need, the moment included, and
//! return facts and enums; the words for them are the screen's.
//!
//! In the order of the work: [`situation`] tells which it is, [`allergy`] and [`skin_test`] who may
//! have the enzyme, [`territory`] and [`dose`] how much, [`dilution`] how to make it, [`rounds`]
//! how it goes on, [`perfusion`] what changed in the skin, [`adjunct`] what is given besides,
//! [`handover`] what others are told, [`aftercare`] when to see the patient again.
//! [`anaphylaxis`] may break in anywhere.

pub mod adjunct;
pub mod aftercare;
pub mod allergy;
pub mod anaphylaxis;
pub mod dilution;
pub mod dose;
pub mod handover;
pub mod perfusion;
pub mod refill;
pub mod rounds;
pub mod situation;
pub mod skin_test;
pub mod territory;
