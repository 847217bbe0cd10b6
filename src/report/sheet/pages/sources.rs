//! Where figures come from: each source once, at the end, under a number.

use crate::report::blocks::Fact;

#[derive(Default)]
pub(super) struct Sources {
    listed: Vec<String>,
}

impl Sources {
    /// Its number in brackets; nothing where there is no source.
    pub(super) fn number(&mut self, source: &str) -> String {
        if source.is_empty() {
            return String::new();
        }
        let known = self.listed.iter().position(|listed| listed == source);
        let place = known.unwrap_or_else(|| {
            self.listed.push(source.to_owned());
            self.listed.len() - 1
        });
        format!("[{}]", place + 1)
    }

    /// A word or two as they are, a longer source by its number.
    pub(super) fn short(&mut self, source: &str) -> String {
        const SHORT: usize = 20;
        if source.chars().count() <= SHORT { source.to_owned() } else { self.number(source) }
    }

    pub(super) fn numbered(&mut self, facts: &[Fact]) -> Vec<Fact> {
        facts.iter().map(|fact| fact.clone().from(self.short(&fact.source))).collect()
    }

    /// Where there is no room for a word: all by their numbers.
    pub(super) fn all_numbered(&mut self, facts: &[Fact]) -> Vec<Fact> {
        facts.iter().map(|fact| fact.clone().from(self.number(&fact.source))).collect()
    }

    /// All of them, in the order of their numbers.
    pub(super) fn listed(&self) -> impl Iterator<Item = (usize, &str)> {
        (1..).zip(self.listed.iter().map(String::as_str))
    }
}
