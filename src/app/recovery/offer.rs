//! The question what to do with a copy that a dead window left.

use std::collections::VecDeque;
use std::path::Path;

use eframe::egui::{Button, Label, RichText, Ui};

use crate::app::actions::{Action, Decision};
use crate::app::theme;
use crate::app::widgets::{dialog, usual};
use crate::app::work::Work;
use crate::clock;
use crate::document::file::{Leftover, leftovers_of, leftovers_without_file, write};
use crate::model::Bay;
use crate::units::shown_path;

/// The copies to ask about, one after the other.
#[derive(Debug, Default)]
pub(in crate::app) struct Offer {
    queue: VecDeque<Offered>,
    /// Those that there were at first.
    count: usize,
    asked_at_start: bool,
}

#[derive(Debug)]
struct Offered {
    leftover: Leftover,
    title: String,
    lines: Vec<String>,
    /// What to beware of.
    caution: Option<String>,
    is_sound: bool,
}

impl Offer {
    pub(in crate::app) fn is_open(&self) -> bool {
        !self.queue.is_empty()
    }

    fn add(&mut self, leftovers: Vec<Leftover>) {
        self.queue.extend(leftovers.into_iter().map(Offered::new));
        self.count = self.queue.len();
    }
}

impl Offered {
    fn new(leftover: Leftover) -> Self {
        let outline = leftover.outline();
        let (title, mut lines, is_sound) = match (&outline, leftover.note()) {
            (_, Err(why)) => (String::new(), vec![format!("It cannot be read: {why}")], false),
            (Err(why), Ok(_)) => {
                let why = why.to_string();
                let mut lines = vec!["It cannot be read".to_owned()];
                lines.extend(why.lines().take(3).map(str::to_owned));
                (String::new(), lines, false)
            }
            (Ok(bay), Ok(_)) => (bay.title.trim().to_owned(), vec![contents(bay)], true),
        };
        let mut caution = None;
        if let Ok(note) = leftover.note() {
            let of = note.of.as_deref();
            let file = of.map_or("It was never saved to a file".to_owned(), |of| {
                format!("Unsaved changes of {}", shown_path(of))
            });
            lines.insert(0, file);
            lines.insert(1, when(note.at));
            caution = of.and_then(|of| saved_later(of, note.at));
            if let Some(report) = &note.report {
                lines.push(format!(
                    "The program stopped by an error; a report is in {}",
                    shown_path(report)
                ));
            }
        } else {
            lines.insert(0, shown_path(&leftover.path));
        }
        Self { leftover, title, lines, caution, is_sound }
    }
}

fn when(at: u64) -> String {
    match (at, clock::now()) {
        (0, _) | (_, None) => "Time unknown".to_owned(),
        (at, Some(now)) => format!("Saved {}, {}", clock::ago(at, now), clock::minute(at)),
    }
}

fn contents(bay: &Bay) -> String {
    let count = |count: usize, word: &str| match count {
        1 => format!("1 {word}"),
        count => format!("{count} {word}s"),
    };
    let hoses = bay.routings.iter().map(|routing| routing.runs.len()).sum();
    format!(
        "{}, {} in {}, {}",
        count(bay.ports.len(), "port"),
        count(hoses, "hose"),
        count(bay.routings.len(), "routing"),
        count(bay.obstacles.len(), "obstacle"),
    )
}

/// The file was saved after the copy was made.
fn saved_later(of: &Path, at: u64) -> Option<String> {
    let Ok(about) = std::fs::metadata(of) else {
        return Some("The file is no longer there; saving will ask for a place".to_owned());
    };
    let saved = about.modified().ok()?.duration_since(std::time::UNIX_EPOCH).ok()?.as_secs();
    (saved > at).then(|| {
        format!(
            "The file was saved after that, {}: what was added since is not in this copy",
            clock::minute(saved)
        )
    })
}

impl Offer {
    /// Looks for copies of this bay's file, and at the start for those of bays without one.
    pub(in crate::app) fn look(&mut self, folder: &Path, work: &Work, opened: Option<&Path>) {
        let mut found = Vec::new();
        if let Some(path) = opened {
            let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
            found.extend(leftovers_of(&path, folder));
        }
        if !std::mem::replace(&mut self.asked_at_start, true) {
            let nameless = |left: &Leftover| left.note().is_ok_and(|note| note.of.is_none());
            let others = leftovers_without_file(folder).into_iter();
            found.extend(others.filter(|left| opened.is_none() || nameless(left)));
        }
        let now = work.document.as_ref().and_then(|document| write(document.bay()).ok());
        found.retain(|left| {
            let same = now.as_ref().is_some_and(|now| now.as_bytes() == left.text());
            // The copy holds nothing that the file does not.
            !(same && left.throw_away().is_ok())
        });
        self.add(found);
    }

    /// Tells what is to be opened.
    pub(in crate::app) fn decide(
        &mut self,
        work: &mut Work,
        decision: Decision,
    ) -> Option<Leftover> {
        let offered = self.queue.pop_front()?;
        match decision {
            Decision::Later => {}
            Decision::ThrowAway => {
                if let Err(why) = offered.leftover.throw_away() {
                    let path = shown_path(&offered.leftover.path);
                    work.trouble("The copy cannot be deleted", vec![path, why.to_string()]);
                }
            }
            Decision::Recover => {
                // One window shows one bay: the rest is asked about another time.
                self.queue.clear();
                return Some(offered.leftover);
            }
        }
        None
    }
}

/// Asks.
pub(in crate::app) fn show(ui: &mut Ui, offer: &Offer, actions: &mut Vec<Action>) {
    let Some(offered) = offer.queue.front() else { return };
    let modal = dialog(ui, "recovery").show(ui, |ui| {
        let colours = theme::palette(ui);
        ui.set_width(480.0);
        let title = match offered.title.as_str() {
            "" => "Unsaved work".to_owned(),
            title => format!("Recover \u{201c}{title}\u{201d}?"),
        };
        ui.heading(title);
        if offer.count > 1 {
            let place = offer.count - offer.queue.len() + 1;
            let place = RichText::new(format!("{place} of {}", offer.count));
            ui.label(place.color(colours.soft).size(theme::size::SMALL));
        }
        ui.add_space(4.0);
        ui.label("A window was not closed properly and left work that is in no bay file.");
        ui.add_space(4.0);
        for line in &offered.lines {
            ui.add(Label::new(RichText::new(line).color(colours.soft)).wrap());
        }
        if let Some(caution) = &offered.caution {
            ui.add(Label::new(RichText::new(caution).color(colours.warn)).wrap());
        }
        ui.add_space(8.0);
        ui.horizontal(|ui| {
            let recover = RichText::new("Recover").color(colours.on_accent);
            let recover =
                ui.add_enabled(offered.is_sound, Button::new(recover).fill(colours.accent));
            usual(&recover);
            let answers = [
                (
                    recover,
                    Decision::Recover,
                    "Open it as unsaved work; undo leads back to the file",
                ),
                (ui.button("Delete copy"), Decision::ThrowAway, "Delete this copy for good"),
                (
                    ui.button("Later"),
                    Decision::Later,
                    "Keep the copy and ask again next time (Esc)",
                ),
            ];
            for (button, decision, tip) in answers {
                if button.on_hover_text(tip).clicked() {
                    actions.push(Action::Decide(decision));
                }
            }
        });
    });
    if modal.should_close() {
        actions.push(Action::Decide(Decision::Later));
    }
}
