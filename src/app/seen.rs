//! What panels and lists see of the window. They read it and tell what is asked for; nothing is changed
//! through it.

use super::actions::Ask;
use super::advice::Advice;
use super::compare::Compare;
use super::recent::Recent;
use super::settings::{Settings, TEXT_PERCENT};
use super::shopping::Shopping;
use super::tools::Hand;
use super::work::Work;

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
    /// Where the arrow keys stand on the bench strip, mm from cut end A.
    pub(super) strip_cursor_mm: f64,
}

impl Seen<'_> {
    /// Whether a request makes sense just now.
    pub(super) fn can(&self, ask: Ask) -> bool {
        let document = self.work.document.as_ref();
        match ask {
            Ask::New
            | Ask::Open
            | Ask::Quit
            | Ask::TextUsual
            | Ask::HighContrast
            | Ask::Finder
            | Ask::Keys
            | Ask::About
            | Ask::Escape => true,
            Ask::TextLarger => self.settings.text_percent < TEXT_PERCENT[1],
            Ask::TextSmaller => self.settings.text_percent > TEXT_PERCENT[0],
            Ask::RoutingEarlier => document.is_some() && self.work.routing > 0,
            Ask::RoutingLater => {
                document.is_some_and(|d| self.work.routing + 1 < d.bay().routings.len())
            }
            Ask::Save
            | Ask::SaveAs
            | Ask::DuplicateRouting
            | Ask::RenameRouting
            | Ask::Shopping
            | Ask::Backgrounds
            | Ask::AddBackground
            | Ask::ImportMesh
            | Ask::Fit
            | Ask::LinkViews
            | Ask::ToolSelect
            | Ask::ToolPort
            | Ask::ToolHose
            | Ask::ToolClamp
            | Ask::ToolObstacle
            | Ask::ToolMeasure
            | Ask::View(_)
            | Ask::ShowView(_)
            | Ask::AllViews
            | Ask::SelectAll => document.is_some(),
            Ask::PlayMotion => {
                self.work.solved.as_ref().is_some_and(|solved| solved.positions().len() > 1)
            }
            Ask::FitSelection => self.work.bounds_of_selection().is_some(),
            Ask::Sheet | Ask::Labels | Ask::Drawing | Ask::ToggleInstalled => {
                self.work.solved.is_some()
            }
            Ask::Template => self.work.solved.is_some() && self.work.selected.run.is_some(),
            Ask::Undo => document.is_some_and(|d| d.history().undo_label().is_some()),
            Ask::Redo => document.is_some_and(|d| d.history().redo_label().is_some()),
            Ask::NextFinding | Ask::PreviousFinding => {
                self.work.solved.as_ref().is_some_and(|solved| !solved.answer.findings.is_empty())
            }
            Ask::ShoppingCsv => self.shopping.found().is_some() && self.shopping.is_fresh(),
            Ask::ComparePage => self.compare.found().is_some() && self.compare.is_fresh(),
            Ask::NextRouting | Ask::DeleteRouting | Ask::ToggleGhost | Ask::Compare => {
                document.is_some_and(|d| d.bay().routings.len() > 1)
            }
            Ask::NewGroup | Ask::Delete | Ask::Duplicate | Ask::MirrorCopy | Ask::Mirror => {
                !self.work.selected.things.is_empty()
            }
            Ask::Rename | Ask::SelectKind => self.work.selected.thing().is_some(),
        }
    }
}
