//! What panels and lists see of the window. They read it and tell what is asked for; nothing is changed
//! through it.

use super::actions::Ask;
use super::advice::Advice;
use super::compare::Compare;
use super::parts::Parts;
use super::recent::Recent;
use super::settings::{Settings, TEXT_PERCENT};
use super::shopping::Shopping;
use super::tools::Hand;
use super::work::Work;
use crate::model::Stock;

/// Everything that is to be seen.
#[derive(Clone, Copy)]
pub(super) struct Seen<'a> {
    pub(super) work: &'a Work,
    pub(super) hand: &'a Hand,
    pub(super) settings: &'a Settings,
    pub(super) recent: &'a Recent,
    pub(super) advice: &'a Advice,
    pub(super) compare: &'a Compare,
    pub(super) shopping: &'a Shopping,
    pub(super) parts: &'a Parts,
    /// Where the arrow keys stand on the bench strip, mm from cut end A.
    pub(super) strip_cursor_mm: f64,
}

impl Seen<'_> {
    /// Whether a request makes sense just now.
    pub(super) fn can(&self, ask: Ask) -> bool {
        self.why_not(ask).is_none()
    }

    /// Why a request makes no sense just now; none where it does.
    pub(super) fn why_not(&self, ask: Ask) -> Option<&'static str> {
        let Some(document) = self.work.document.as_ref() else {
            return self.without_bay(ask).err();
        };
        let routings = document.bay().routings.len();
        let unless = |is_so: bool, why: &'static str| if is_so { Ok(()) } else { Err(why) };
        let solved = self.work.solved.as_ref();
        let answer = match ask {
            Ask::RoutingEarlier => unless(self.work.routing > 0, "It is the first already"),
            Ask::RoutingLater => unless(self.work.routing + 1 < routings, "It is the last already"),
            Ask::NextRouting | Ask::DeleteRouting | Ask::ToggleGhost | Ask::Compare => {
                unless(routings > 1, "There is one routing only: duplicate it first")
            }
            Ask::PlayMotion => unless(
                solved.is_some_and(|solved| solved.positions().len() > 1),
                "Nothing moves in this bay: make a moving group first",
            ),
            Ask::FitSelection => unless(self.work.bounds_of_selection().is_some(), SELECT_FIRST),
            Ask::Sheet | Ask::Labels | Ask::Drawing | Ask::ToggleInstalled => {
                unless(solved.is_some(), BEING_CALCULATED)
            }
            Ask::Template => unless(
                solved.is_some() && self.work.selected.run.is_some(),
                "Select a hose first: the template is of one hose",
            ),
            Ask::Undo => unless(document.history().undo_label().is_some(), "Nothing to undo"),
            Ask::Redo => unless(document.history().redo_label().is_some(), "Nothing to redo"),
            Ask::NextFinding | Ask::PreviousFinding => unless(
                solved.is_some_and(|solved| !solved.answer.findings.is_empty()),
                "All clear: there is no finding",
            ),
            Ask::ShoppingCsv => unless(
                self.shopping.found().is_some() && self.shopping.is_fresh(),
                "Open shopping and cutting (Shift+B) first, and wait until it is calculated",
            ),
            Ask::PartsExport => unless(
                *self.parts.library.stock() != Stock::default(),
                "The parts library is empty: add a part first (Shift+P)",
            ),
            Ask::ComparePage => unless(
                self.compare.found().is_some() && self.compare.is_fresh(),
                "Open the comparison (Shift+O) first, and wait until it is calculated",
            ),
            Ask::NewGroup | Ask::Delete | Ask::Duplicate | Ask::MirrorCopy | Ask::Mirror => {
                unless(!self.work.selected.things.is_empty(), SELECT_FIRST)
            }
            Ask::Rename | Ask::SelectKind => {
                unless(self.work.selected.thing().is_some(), "Select one thing first")
            }
            _ => self.of_text(ask),
        };
        answer.err()
    }

    /// What can be asked for with no bay open.
    fn without_bay(&self, ask: Ask) -> Result<(), &'static str> {
        match ask {
            Ask::New
            | Ask::Open
            | Ask::Quit
            | Ask::TextUsual
            | Ask::TextLarger
            | Ask::TextSmaller
            | Ask::HighContrast
            | Ask::Finder
            | Ask::Keys
            | Ask::About
            | Ask::Escape => self.of_text(ask),
            _ => Err("Open a bay first"),
        }
    }

    fn of_text(&self, ask: Ask) -> Result<(), &'static str> {
        let percent = self.settings.text_percent;
        match ask {
            Ask::TextLarger if percent >= TEXT_PERCENT[1] => Err("Text is at its largest"),
            Ask::TextSmaller if percent <= TEXT_PERCENT[0] => Err("Text is at its smallest"),
            _ => Ok(()),
        }
    }
}

const SELECT_FIRST: &str = "Select something first";
const BEING_CALCULATED: &str = "Being calculated";
