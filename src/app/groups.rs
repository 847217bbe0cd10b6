//! The requests in the groups that the menus and the list of keys show.

use super::actions::{Ask, Spec, TABLE};

/// A group of requests.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// Files, the sheet, leaving.
    File,
    /// Changing what is there.
    Edit,
    /// Tools and new things.
    Add,
    /// How the bay is looked at, and what is wrong with it.
    View,
    /// Routings.
    Routings,
    /// Finding one's way.
    Help,
}

impl Group {
    /// All, in the order of the menus, with their titles.
    pub const ALL: [(Self, &'static str); 6] = [
        (Self::File, "File"),
        (Self::Edit, "Edit"),
        (Self::Add, "Add"),
        (Self::View, "View"),
        (Self::Routings, "Routings"),
        (Self::Help, "Help"),
    ];

    /// Of a request. What is not named here changes something.
    pub fn of(ask: Ask) -> Self {
        match ask {
            Ask::New
            | Ask::Open
            | Ask::Save
            | Ask::SaveAs
            | Ask::Sheet
            | Ask::Labels
            | Ask::Template
            | Ask::Drawing
            | Ask::Shopping
            | Ask::ShoppingCsv
            | Ask::Parts
            | Ask::PartsImport
            | Ask::PartsExport
            | Ask::Quit => Self::File,
            Ask::ToolPort
            | Ask::ToolHose
            | Ask::ToolClamp
            | Ask::ToolObstacle
            | Ask::NewGroup
            | Ask::AddBackground
            | Ask::ImportMesh => Self::Add,
            Ask::ToolMeasure
            | Ask::Fit
            | Ask::LinkViews
            | Ask::FitSelection
            | Ask::View(_)
            | Ask::ShowView(_)
            | Ask::AllViews
            | Ask::ToggleGhost
            | Ask::ToggleInstalled
            | Ask::PlayMotion
            | Ask::Backgrounds
            | Ask::NextFinding
            | Ask::PreviousFinding
            | Ask::TextLarger
            | Ask::TextSmaller
            | Ask::TextUsual
            | Ask::HighContrast => Self::View,
            Ask::NextRouting
            | Ask::DuplicateRouting
            | Ask::RenameRouting
            | Ask::DeleteRouting
            | Ask::RoutingEarlier
            | Ask::RoutingLater
            | Ask::Compare
            | Ask::ComparePage => Self::Routings,
            Ask::Finder | Ask::Keys | Ask::About => Self::Help,
            _ => Self::Edit,
        }
    }

    /// The requests in it, in the order of the table.
    pub fn requests(self) -> impl Iterator<Item = &'static Spec> {
        TABLE.iter().filter(move |spec| Self::of(spec.ask) == self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_request_is_in_one_group() {
        let count: usize = Group::ALL.iter().map(|(group, _)| group.requests().count()).sum();
        assert_eq!(count, TABLE.len());
        for (group, title) in Group::ALL {
            assert!(group.requests().count() > 0, "{title}");
        }
    }
}
