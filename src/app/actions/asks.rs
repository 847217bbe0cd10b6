//! The requests with a name: their words, tooltips and keys.

use eframe::egui::{Key, KeyboardShortcut, Modifiers};

use crate::app::canvas::panes::Pane;

/// A request with a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[allow(missing_docs, reason = "the table says what each is")]
pub enum Ask {
    New,
    Open,
    Save,
    SaveAs,
    Sheet,
    Labels,
    Template,
    Drawing,
    Backgrounds,
    AddBackground,
    ImportMesh,
    Quit,
    Undo,
    Redo,
    Fit,
    LinkViews,
    NextFinding,
    PreviousFinding,
    NextRouting,
    ToolSelect,
    ToolPort,
    ToolHose,
    ToolClamp,
    ToolObstacle,
    ToolMeasure,
    NewGroup,
    Delete,
    Duplicate,
    MirrorCopy,
    Mirror,
    Rename,
    SelectAll,
    SelectKind,
    DuplicateRouting,
    RenameRouting,
    DeleteRouting,
    RoutingEarlier,
    RoutingLater,
    Compare,
    ComparePage,
    Shopping,
    ShoppingCsv,
    Parts,
    PartsImport,
    PartsExport,
    TextLarger,
    TextSmaller,
    TextUsual,
    HighContrast,
    Finder,
    Keys,
    About,
    /// One view large, or the others back.
    View(Pane),
    /// A view among the others, or away.
    ShowView(Pane),
    AllViews,
    FitSelection,
    ToggleGhost,
    ToggleInstalled,
    PlayMotion,
    Escape,
}

/// How a request is shown and called.
#[derive(Debug, Clone, Copy)]
pub struct Spec {
    /// Which.
    pub ask: Ask,
    /// On its button or menu entry.
    pub text: &'static str,
    /// What it does.
    pub tooltip: &'static str,
    /// Its keys; the first is the one shown.
    pub keys: &'static [KeyboardShortcut],
}

const fn plain(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::NONE, key)
}

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const SHIFT: Modifiers = Modifiers::SHIFT;

const fn ctrl_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(SHIFT), key)
}

const fn spec(
    ask: Ask,
    text: &'static str,
    tooltip: &'static str,
    keys: &'static [KeyboardShortcut],
) -> Spec {
    Spec { ask, text, tooltip, keys }
}

const fn alt(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::ALT, key)
}

const PLAN: &str = "Plan large; again: all views";
const SIDE: &str = "Side view large; again: all views";
const FRONT: &str = "Front view large; again: all views";
const TURNING: &str = "3-D view large; again: all views";
const SHOW: &str = "Show or hide this view";

/// Every request.
pub const TABLE: [Spec; 66] = [
    spec(Ask::New, "New bay", "Start an empty bay", &[ctrl(Key::N)]),
    spec(Ask::Open, "Open\u{2026}", "Open a bay file", &[ctrl(Key::O)]),
    spec(Ask::Save, "Save", "Save to the bay's file", &[ctrl(Key::S)]),
    spec(Ask::SaveAs, "Save as\u{2026}", "Save to another file", &[ctrl_shift(Key::S)]),
    spec(
        Ask::Sheet,
        "Length sheet\u{2026}",
        "Write the length sheet of this routing and open it for printing",
        &[ctrl(Key::P)],
    ),
    spec(
        Ask::Labels,
        "Labels\u{2026}",
        "Write a label for each hose of this routing, several to a page, and open them for printing",
        &[],
    ),
    spec(
        Ask::Template,
        "Full-size template\u{2026}",
        "Write the selected hose at full size, on as many pages as it takes, to lay the real one on",
        &[],
    ),
    spec(
        Ask::Drawing,
        "Drawing of the view\u{2026}",
        "Write the view last used in true scale, as DXF for a drawing program or as SVG",
        &[],
    ),
    spec(
        Ask::Shopping,
        "Shopping list and cut list\u{2026}",
        "What to buy for this routing with its prices, and what to cut from which length; again: the card",
        &[KeyboardShortcut::new(SHIFT, Key::B)],
    ),
    spec(
        Ask::ShoppingCsv,
        "List as CSV\u{2026}",
        "Write the shopping list as a table for ordering, to be opened by any spreadsheet",
        &[],
    ),
    spec(
        Ask::Parts,
        "Parts library\u{2026}",
        "Your own hoses, end fittings, clamps and lengths, for all bays; again: the card",
        &[KeyboardShortcut::new(SHIFT, Key::P)],
    ),
    spec(
        Ask::PartsImport,
        "Import parts\u{2026}",
        "Take parts from a table (CSV) into the parts library; nothing where one line is wrong",
        &[],
    ),
    spec(
        Ask::PartsExport,
        "Export parts\u{2026}",
        "Write the parts library as a table (CSV), to be changed in any spreadsheet",
        &[],
    ),
    spec(Ask::Quit, "Quit", "Close the window", &[ctrl(Key::Q)]),
    spec(Ask::Undo, "Undo", "Undo the last change", &[ctrl(Key::Z)]),
    spec(Ask::Redo, "Redo", "Redo what was undone", &[ctrl_shift(Key::Z), ctrl(Key::Y)]),
    spec(Ask::Fit, "Fit", "Show the whole bay (double-click: in one view)", &[plain(Key::F)]),
    spec(
        Ask::LinkViews,
        "Views linked",
        "Linked: one scale, shared axes in line. Free: each view pans and zooms by itself",
        &[plain(Key::L)],
    ),
    spec(Ask::NextFinding, "Next finding", "Look at the next finding", &[plain(Key::N)]),
    spec(
        Ask::PreviousFinding,
        "Previous finding",
        "Look at the previous finding",
        &[KeyboardShortcut::new(SHIFT, Key::N)],
    ),
    spec(Ask::NextRouting, "Next routing", "Show the next routing", &[plain(Key::O)]),
    spec(Ask::View(Pane::Plan), "Plan large", PLAN, &[plain(Key::Num1)]),
    spec(Ask::View(Pane::Side), "Side large", SIDE, &[plain(Key::Num2)]),
    spec(Ask::View(Pane::Front), "Front large", FRONT, &[plain(Key::Num3)]),
    spec(Ask::View(Pane::Turning), "3-D large", TURNING, &[plain(Key::Num4)]),
    spec(Ask::ShowView(Pane::Plan), "Show plan", SHOW, &[alt(Key::Num1)]),
    spec(Ask::ShowView(Pane::Side), "Show side", SHOW, &[alt(Key::Num2)]),
    spec(Ask::ShowView(Pane::Front), "Show front", SHOW, &[alt(Key::Num3)]),
    spec(Ask::ShowView(Pane::Turning), "Show 3-D", SHOW, &[alt(Key::Num4)]),
    spec(
        Ask::AllViews,
        "All views",
        "Plan, side, front and 3-D at once",
        &[plain(Key::Num0), plain(Key::V)],
    ),
    spec(
        Ask::FitSelection,
        "Fit selection",
        "Show the selection as large as it goes",
        &[KeyboardShortcut::new(SHIFT, Key::F)],
    ),
    spec(
        Ask::ToggleGhost,
        "Ghost of the other routing",
        "Show or hide the other routing behind, pale and dashed",
        &[plain(Key::G)],
    ),
    spec(
        Ask::ToggleInstalled,
        "Installed shape",
        "Show or hide where the hoses will really be at their cut length",
        &[plain(Key::Y)],
    ),
    spec(
        Ask::Backgrounds,
        "Photo",
        "Photos and outlines under a view: scale, straighten, opacity, order",
        &[plain(Key::U)],
    ),
    spec(
        Ask::PlayMotion,
        "Play the motion",
        "Move the groups through their positions, with the installed shape in each; again: stop",
        &[plain(Key::R)],
    ),
    spec(
        Ask::ToolSelect,
        "Select",
        "Select and move things; drag a hose to pull a bend out of it (Esc)",
        &[plain(Key::Q)],
    ),
    spec(
        Ask::ToolPort,
        "Port",
        "Add a port: press where the seat is, drag the way the hose leaves",
        &[plain(Key::P)],
    ),
    spec(Ask::ToolHose, "Hose", "Draw a hose from port to port", &[plain(Key::H)]),
    spec(Ask::ToolClamp, "Clamp", "Put a clamp on a hose", &[plain(Key::C)]),
    spec(
        Ask::ToolObstacle,
        "Obstacle",
        "Draw a box, cylinder or sphere that hoses must stay clear of",
        &[plain(Key::K)],
    ),
    spec(Ask::ToolMeasure, "Measure", "Measure from one place to another", &[plain(Key::T)]),
    spec(
        Ask::NewGroup,
        "Group",
        "Put the selected ports and obstacles on a new moving group",
        &[plain(Key::B)],
    ),
    spec(
        Ask::AddBackground,
        "Photo or outline\u{2026}",
        "Put a photo (JPEG, PNG) or an outline (DXF) under the view last used; or drop it on a view",
        &[],
    ),
    spec(
        Ask::ImportMesh,
        "Import mesh\u{2026}",
        "Make an obstacle of an STL file; or drop it on a view",
        &[],
    ),
    spec(
        Ask::Delete,
        "Delete",
        "Delete the selection; a port takes its hoses along",
        &[plain(Key::Delete), plain(Key::Backspace)],
    ),
    spec(Ask::Duplicate, "Duplicate", "Copy the selection, beside it", &[ctrl(Key::D)]),
    spec(
        Ask::MirrorCopy,
        "Mirror a copy",
        "Copy the selection to the other side of the vehicle's middle plane, Y = 0",
        &[plain(Key::M)],
    ),
    spec(
        Ask::Mirror,
        "Mirror",
        "Move the selection to the other side of the vehicle's middle plane, Y = 0",
        &[KeyboardShortcut::new(SHIFT, Key::M)],
    ),
    spec(Ask::Rename, "Rename\u{2026}", "Give the selection another name", &[plain(Key::F2)]),
    spec(Ask::SelectAll, "Select all", "Select every port, hose and obstacle", &[ctrl(Key::A)]),
    spec(
        Ask::SelectKind,
        "Select all of this kind",
        "Select everything of the selected kind",
        &[ctrl_shift(Key::A)],
    ),
    spec(
        Ask::DuplicateRouting,
        "Duplicate routing",
        "Copy the routing in view, to try another way beside it",
        &[ctrl_shift(Key::D)],
    ),
    spec(
        Ask::RenameRouting,
        "Rename routing\u{2026}",
        "Give the routing in view another name",
        &[],
    ),
    spec(
        Ask::DeleteRouting,
        "Delete routing",
        "Delete the routing in view; the last one stays",
        &[],
    ),
    spec(
        Ask::RoutingEarlier,
        "Routing earlier",
        "Put the routing in view one place to the left",
        &[],
    ),
    spec(Ask::RoutingLater, "Routing later", "Put the routing in view one place to the right", &[]),
    spec(
        Ask::Compare,
        "Compare routings",
        "What each routing takes and costs and how far it stays clear, side by side; again: the card",
        &[KeyboardShortcut::new(SHIFT, Key::O)],
    ),
    spec(
        Ask::ComparePage,
        "Comparison page\u{2026}",
        "Write the comparison as a page and open it for printing",
        &[],
    ),
    spec(
        Ask::TextLarger,
        "Larger text",
        "Text and controls one step larger, up to 200 %",
        &[ctrl(Key::Plus), ctrl(Key::Equals)],
    ),
    spec(
        Ask::TextSmaller,
        "Smaller text",
        "Text and controls one step smaller, down to 80 %",
        &[ctrl(Key::Minus)],
    ),
    spec(Ask::TextUsual, "Usual text size", "Text and controls at 100 %", &[ctrl(Key::Num0)]),
    spec(
        Ask::HighContrast,
        "High contrast",
        "Text at 7 : 1 and clear edges, light or dark; again: the usual colours",
        &[],
    ),
    spec(
        Ask::Finder,
        "Find\u{2026}",
        "Type a few letters of a command, a hose, a port or an obstacle, and press Enter",
        &[ctrl(Key::K), plain(Key::Questionmark)],
    ),
    spec(Ask::Keys, "Keys and gestures", "Every key, and what the pointer does", &[plain(Key::F1)]),
    spec(Ask::About, "About Hosewright", "Version and licences", &[]),
    spec(
        Ask::Escape,
        "Cancel",
        "Cancel what is being moved, close what is open, clear the selection",
        &[plain(Key::Escape)],
    ),
];

impl Ask {
    /// Its line of the table.
    pub fn spec(self) -> &'static Spec {
        TABLE.iter().find(|spec| spec.ask == self).unwrap_or(&TABLE[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_requests_share_a_key() {
        let keys: Vec<(Ask, KeyboardShortcut)> =
            TABLE.iter().flat_map(|spec| spec.keys.iter().map(|key| (spec.ask, *key))).collect();
        for (i, (ask, key)) in keys.iter().enumerate() {
            for (other, same) in &keys[i + 1..] {
                assert_ne!(key, same, "{ask:?} and {other:?}");
            }
        }
    }

    #[test]
    fn every_request_is_in_the_table_once_with_its_words() {
        for (i, spec) in TABLE.iter().enumerate() {
            assert!(!spec.text.is_empty() && !spec.tooltip.is_empty());
            assert_eq!(spec.ask.spec().text, spec.text, "line {i}");
        }
    }
}
