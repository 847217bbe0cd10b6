//! The sheet as pages: what stands where. The first page is for cutting; one page for each hose, a second
//! only where it has faults; what is looked up stands once, at the end.

mod appendix;
mod front;
mod hose;
mod others;
mod sources;

use super::{FindingLine, HoseSheet, Sheet};
use crate::checks::Severity;
use crate::report::blocks::{Document, Finding, Tone, Words};
use crate::report::captions;
use sources::Sources;

impl Sheet {
    /// The pages to print, in order.
    pub fn document(&self) -> Document {
        let mut sources = Sources::default();
        let mut sections = vec![front::section(self, &mut sources)];
        for hose in &self.hoses {
            sections.extend(hose::sections(self, hose, &mut sources));
        }
        if !self.hoses.is_empty() {
            sections.push(appendix::section(self, &mut sources));
        }
        Document {
            title: format!("{}: length sheet, {}", self.title, self.routing),
            bay: self.title.clone(),
            routing: format!("routing: {}", self.routing),
            info: self.info.clone(),
            sections,
        }
    }
}

/// Small print with its head before the first words; nothing where there is none.
fn headed(head: &str, items: Vec<Words>) -> impl Iterator<Item = Words> {
    let mut head = Some(Tone::Strong.of(format!("{head} ")));
    items.into_iter().map(move |words| head.take().into_iter().chain(words).collect())
}

fn of_hose(hose: &HoseSheet) -> String {
    format!("{} {}", hose.number, hose.name)
}

/// A finding with everything that is said of it; `name` is its hose where that is not said elsewhere.
fn in_full(line: &FindingLine, name: &str, sources: &mut Sources) -> Finding {
    let mut finding = in_short(line, name);
    let mut add = |tone: Tone, text: &str| {
        if !text.is_empty() {
            finding.words.push(tone.of(format!(" {text}")));
        }
    };
    if !line.place.is_empty() {
        add(Tone::Label, &format!("{}.", line.place));
    }
    add(Tone::Plain, &line.hint);
    add(Tone::Soft, &format!("{} {}", line.rule, sources.number(&line.source)));
    finding.follows = line.follows.iter().map(|words| vec![Tone::Plain.of(words)]).collect();
    finding
}

/// What is wrong, no more.
fn in_short(line: &FindingLine, name: &str) -> Finding {
    let message = match line.message.chars().last() {
        Some('.' | '?' | '!') => line.message.clone(),
        _ => format!("{}.", line.message),
    };
    let mut words = Vec::new();
    if !name.is_empty() {
        words.push(Tone::Label.of(format!("{name}: ")));
    }
    words.push(Tone::Strong.of(message));
    Finding { mark: mark(line.severity), words, follows: Vec::new() }
}

fn mark(severity: Severity) -> crate::report::blocks::Span {
    let tone = match severity {
        Severity::Fail => Tone::Dark,
        Severity::Warn => Tone::Framed,
        Severity::Note => Tone::Soft,
    };
    tone.of(captions::severity(severity))
}

/// Whether it stands on a page of its hose: the rest is looked up at the end.
fn is_with_its_hose(hose: &HoseSheet, line: &FindingLine) -> bool {
    !hose.stop.is_empty() && line.severity != Severity::Note
}
