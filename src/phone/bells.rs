//! What rings: each thing due rings once, and is silenced by itself.

use std::collections::BTreeSet;

/// What has rung, and what rings now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bells<T> {
    rung: BTreeSet<T>,
    ringing: BTreeSet<T>,
}

/// What changed when the clock was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change<T> {
    /// Begins to ring.
    pub begin: Vec<T>,
    /// No longer due, so it rings no more.
    pub end: Vec<T>,
}

impl<T> Default for Bells<T> {
    fn default() -> Self {
        Self { rung: BTreeSet::new(), ringing: BTreeSet::new() }
    }
}

impl<T: Copy + Ord> Bells<T> {
    /// Takes what is due now. What was due before and is not now rings no more; what is newly due
    /// begins, and never begins twice.
    pub fn see(&mut self, due: &BTreeSet<T>) -> Change<T> {
        let end: Vec<T> = self.ringing.difference(due).copied().collect();
        let begin: Vec<T> = due.difference(&self.rung).copied().collect();
        self.ringing.retain(|bell| due.contains(bell));
        self.ringing.extend(&begin);
        self.rung.extend(&begin);
        Change { begin, end }
    }

    /// Silences some, and returns those that rang. The others ring on.
    pub fn silence(&mut self, which: impl Fn(&T) -> bool) -> Vec<T> {
        let silenced: Vec<T> = self.ringing.iter().filter(|bell| which(bell)).copied().collect();
        self.ringing.retain(|bell| !which(bell));
        silenced
    }

    /// What rings.
    pub fn ringing(&self) -> impl Iterator<Item = &T> {
        self.ringing.iter()
    }

    /// Whether nothing rings.
    pub fn still(&self) -> bool {
        self.ringing.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn due(all: &[u8]) -> BTreeSet<u8> {
        all.iter().copied().collect()
    }

    #[test]
    fn each_rings_once_though_it_stays_due() {
        let mut bells = Bells::default();
        assert_eq!(bells.see(&due(&[])), Change { begin: vec![], end: vec![] });
        assert_eq!(bells.see(&due(&[1])), Change { begin: vec![1], end: vec![] });
        assert_eq!(bells.see(&due(&[1])), Change { begin: vec![], end: vec![] });
        assert_eq!(bells.silence(|_| true), [1]);
        assert_eq!(bells.see(&due(&[1])), Change { begin: vec![], end: vec![] });
        assert!(bells.still());
    }

    #[test]
    fn a_second_rings_while_the_first_does_and_each_is_silenced_by_itself() {
        let mut bells = Bells::default();
        bells.see(&due(&[1]));
        assert_eq!(bells.see(&due(&[1, 2])).begin, [2]);
        assert_eq!(bells.silence(|bell| *bell == 1), [1]);
        assert_eq!(bells.ringing().collect::<Vec<_>>(), [&2]);
        assert!(bells.silence(|bell| *bell == 1).is_empty());
        assert!(!bells.still());
    }

    #[test]
    fn what_was_done_rings_no_more_and_the_other_rings_on() {
        let mut bells = Bells::default();
        bells.see(&due(&[1, 2]));
        assert_eq!(bells.see(&due(&[2])), Change { begin: vec![], end: vec![1] });
        assert_eq!(bells.ringing().collect::<Vec<_>>(), [&2]);
    }
}
