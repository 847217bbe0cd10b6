//! What `check` found, for people: hose by hose, notes folded, sources once.

use std::fmt::Write;
use std::sync::Arc;

use super::table::{shortened, wrap};
use crate::checks::Finding;
use crate::report::answer::Answer;
use crate::report::findings::{Cause, Findings, Notes, from_cut_end};
use crate::units::quotable;

/// No line of ours is wider, but for words that cannot be broken.
pub(super) const COLUMNS: usize = 108;

/// A hose's name in the table.
pub(super) const NAME_COLUMNS: usize = 22;

/// What is printed besides.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Unfolded {
    /// Each note in full.
    pub(super) notes: bool,
    /// The source of each rule that found something.
    pub(super) sources: bool,
}

/// What is printed of a routing's findings.
pub(super) fn text(answer: &Answer, unfolded: Unfolded) -> String {
    Lists(answer).text(unfolded)
}

struct Lists<'a>(&'a Answer);

/// Where the words of a finding begin.
const INDENT: usize = 11;

impl Lists<'_> {
    fn finding(&self, index: usize) -> Option<&Finding> {
        self.0.findings.get(index).map(Arc::as_ref)
    }

    fn text(&self, unfolded: Unfolded) -> String {
        let mut out = String::new();
        for hose in &self.0.told.hoses {
            let name = self.0.routing().runs.get(hose.place).map_or("", |run| run.shown_name());
            let _ = writeln!(out, "\n{}", shortened(name, COLUMNS));
            self.causes(&mut out, &hose.causes);
        }
        if !self.0.told.bay.is_empty() {
            out.push_str("\nThe bay\n");
            self.causes(&mut out, &self.0.told.bay);
        }
        if !self.0.told.notes.is_empty() {
            let more = if unfolded.notes { "" } else { " (in full: --notes)" };
            let _ = writeln!(out, "\nNotes{more}");
            for notes in &self.0.told.notes {
                if unfolded.notes {
                    self.note_in_full(&mut out, notes);
                } else {
                    self.note(&mut out, notes);
                }
            }
        }
        if unfolded.sources {
            self.sources(&mut out);
        }
        out
    }

    fn causes(&self, out: &mut String, causes: &[Cause]) {
        for cause in causes {
            let Some(finding) = self.finding(cause.finding) else { continue };
            let word = finding.severity.noun().to_uppercase();
            let said = format!("{}. [{}]", self.said(finding), finding.rule);
            line(out, &format!("  {word:<9}"), &said);
            line(out, &format!("{}→ ", " ".repeat(INDENT)), &format!("{}.", finding.hint));
            for follows in cause.follows.iter().filter_map(|index| self.finding(*index)) {
                let label = format!("{}· ", " ".repeat(INDENT));
                line(out, &label, &format!("{}. [{}]", self.said(follows), follows.rule));
            }
        }
    }

    /// What, and where.
    fn said(&self, finding: &Finding) -> String {
        match self.place(finding) {
            place if place.is_empty() => finding.message.clone(),
            place => format!("{}. {place}", finding.message),
        }
    }

    fn place(&self, finding: &Finding) -> String {
        let Some(id) = &finding.run else {
            return finding.other.as_deref().map(quotable).unwrap_or_default();
        };
        let place = self.0.routing().runs.iter().position(|run| run.id == *id);
        let solved = place.and_then(|place| self.0.solution.run(place));
        from_cut_end(finding, solved, self.0.bay().show_units)
    }

    fn note(&self, out: &mut String, notes: &Notes) {
        let found: Vec<&Finding> =
            notes.findings.iter().filter_map(|index| self.finding(*index)).collect();
        if let [only] = found[..] {
            line(out, "  ", &format!("{}{}", self.whose(only), self.said(only)));
            return;
        }
        let on = notes.hoses(&self.0.findings, self.0.routing());
        let on: Vec<String> = on.iter().map(|name| shortened(name, NAME_COLUMNS)).collect();
        let on = if on.is_empty() { String::new() } else { format!(": {}", on.join(", ")) };
        line(out, "  ", &format!("{}{on}", notes.title()));
    }

    fn note_in_full(&self, out: &mut String, notes: &Notes) {
        line(out, "  ", &format!("{}. [{}]", notes.title(), notes.rule));
        let mut hint = "";
        for finding in notes.findings.iter().filter_map(|index| self.finding(*index)) {
            line(out, "    ", &format!("{}{}.", self.whose(finding), self.said(finding)));
            hint = &finding.hint;
        }
        line(out, "    ", &format!("→ {hint}."));
    }

    fn whose(&self, finding: &Finding) -> String {
        let run = self.0.routing().runs.iter().find(|run| Some(&run.id) == finding.run.as_ref());
        run.map_or_else(String::new, |run| {
            format!("{}: ", shortened(run.shown_name(), NAME_COLUMNS))
        })
    }

    fn sources(&self, out: &mut String) {
        out.push_str("\nSources\n");
        for (rule, sources) in Findings::sources(&self.0.findings) {
            line(out, &format!("  {rule:<22}"), &sources.join("; "));
        }
    }
}

/// `words` after `label`, every further line below the words.
fn line(out: &mut String, label: &str, words: &str) {
    let label = if label.is_empty() { " ".repeat(INDENT) } else { label.to_owned() };
    let indent = label.chars().count();
    let words = wrap(words, COLUMNS.saturating_sub(indent), 0);
    let words = words.replace('\n', &format!("\n{}", " ".repeat(indent)));
    let _ = writeln!(out, "{label}{words}");
}
