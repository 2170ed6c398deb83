//! The passcode: what goes off the desk when the phone locks, and what stays.
//!
//! A case where a patient is waiting stays in reach, and one that is begun while the phone is locked:
//! nobody is to look for a passcode with a needle in the hand. Everything else goes.

use super::writing::Wanted;
use super::{Away, Desk, Place};
use crate::case::{CaseId, Event};
use crate::phone::tabs::Tab;
use crate::store::Refusal;
use crate::store::gate::{self, GateError, Standing};
use leptos::prelude::*;
use std::mem;
use wasm_bindgen_futures::spawn_local;

impl Desk {
    /// How the gate stands, tracked.
    pub fn standing(self) -> Standing {
        self.gate.get()
    }

    /// Whether the keys are away, tracked.
    pub fn locked(self) -> bool {
        self.gate.get() == Standing::Shut
    }

    /// Whether the keys are here, not tracked.
    pub fn open_gate(self) -> bool {
        self.gate.get_untracked() == Standing::Open
    }

    pub(super) async fn look_at_gate(self) {
        if self.place == Place::Phone {
            self.settle(gate::arrive().await);
        }
    }

    /// Puts the keys away, and the cases with them.
    pub fn lock(self) {
        gate::lock();
        self.settle(gate::standing());
    }

    /// Looks at the gate after another tab set the passcode, changed it or took it off.
    pub fn passcode_changed(self) {
        spawn_local(async move {
            let was = self.gate.get_untracked();
            self.look_at_gate().await;
            if was == Standing::Shut && self.gate.get_untracked() == Standing::Unset {
                // What was sealed lies open again.
                self.read_anew().await;
            }
        });
    }

    fn settle(self, standing: Standing) {
        if standing == Standing::Shut {
            let now = self.clock.now();
            let letters = self.letters.get_value();
            self.cases.update(|cases| {
                cases.retain(|id, held| {
                    *id == CaseId::CLINIC || letters.contains(id) || held.case.in_reach(now)
                });
            });
            self.away.set(Away::default());
        } else {
            self.letters.update_value(std::collections::BTreeSet::clear);
        }
        if self.gate.get_untracked() != standing {
            self.gate.set(standing);
        }
    }

    /// Opens the gate and reads everything.
    ///
    /// # Errors
    /// [`GateError`]; nothing was opened.
    pub async fn unlock(self, passcode: &str) -> Result<(), GateError> {
        gate::unlock(passcode, self.clock.now()).await?;
        let later = self.later.try_update_value(mem::take).unwrap_or_default();
        self.queue.update_value(|queue| queue.extend(later));
        self.read_anew().await;
        Ok(())
    }

    /// Sets a passcode where none is.
    ///
    /// # Errors
    /// [`GateError`]; see [`gate::set`].
    pub async fn set_passcode(self, passcode: &str) -> Result<(), GateError> {
        self.alone()?;
        let done = gate::set(passcode).await;
        self.settle(gate::standing());
        done
    }

    /// Sets another passcode.
    ///
    /// # Errors
    /// [`GateError`]; see [`gate::change`].
    pub async fn change_passcode(self, old: &str, new: &str) -> Result<(), GateError> {
        self.alone()?;
        gate::change(old, new, self.clock.now()).await
    }

    /// Takes the passcode off.
    ///
    /// # Errors
    /// [`GateError`]; see [`gate::clear`].
    pub async fn clear_passcode(self, passcode: &str) -> Result<(), GateError> {
        self.alone()?;
        let done = gate::clear(passcode, self.clock.now()).await;
        self.settle(gate::standing());
        done
    }

    /// What lies there is turned by the tab that writes, or lines would be written the old way
    /// meanwhile.
    fn alone(self) -> Result<(), GateError> {
        if self.tab.get_untracked() == Tab::Other {
            return Err(GateError::Refused(Refusal::Blocked));
        }
        Ok(())
    }

    /// Whether something can be written now. While the keys are away, an entry of a case that is not
    /// in hand would claim the place of its first: it waits for them.
    pub(super) fn can_follow(self, wanted: &Wanted) -> bool {
        let begins = matches!(wanted.event, Event::Opened { .. }) || wanted.case == CaseId::CLINIC;
        let locked = self.gate.get_untracked() == Standing::Shut;
        begins || !locked || self.cases.with_untracked(|cases| cases.contains_key(&wanted.case))
    }
}
