//! Ferrules that are crimped or swaged.

use super::{End, Job};
use crate::model::{Attachment, EndSize};
use crate::units::Length;

/// Who makes it.
pub(super) const BY_WHOM: &str = "Have it crimped by a shop, or use the press and dies that the end’s \
                                  manufacturer names; hose and ends of one manufacturer (SAE J1273, published)";

impl Job<'_> {
    pub(super) fn pressed(&self, ends: &[&End<'_>]) -> Vec<String> {
        let verb = match ends.first().map(|end| end.attachment) {
            Some(Attachment::Swaged) => "Swage",
            _ => "Crimp",
        };
        let insertion = self.figure(ends, "the insertion depth", |size| size.insertion_mm);
        let diameter = self.figure(ends, "the diameter", |size| size.crimp_diameter_mm);
        let mut steps = vec![
            format!("Mark how far the hose goes in: {insertion}"),
            "Sleeves and guards on before the second end; hose in to its mark".to_owned(),
        ];
        steps.extend(self.clock.map(|angle| {
            format!("Two elbows: clock angle {angle} set before the press closes; it cannot be turned after")
        }));
        steps.push(format!(
            "{verb} to {diameter}; measure in the middle between the die lines, three places round"
        ));
        steps
    }

    /// The maker's figure at each end, once where they agree.
    fn figure(
        &self,
        ends: &[&End<'_>],
        what: &str,
        of: impl Fn(&EndSize) -> Option<f64>,
    ) -> String {
        let shown: Vec<String> = ends
            .iter()
            .map(|end| {
                end.size.and_then(&of).map_or_else(
                    || format!("{what} is not given: take it from the manufacturer’s chart"),
                    |mm| {
                        format!(
                            "{} (the manufacturer’s, from the bay file)",
                            Length::from_mm(mm).show_fine(self.unit)
                        )
                    },
                )
            })
            .collect();
        match &shown[..] {
            [a, b] if a != b => {
                let lettered = ends.iter().zip(&shown);
                let lettered =
                    lettered.map(|(end, shown)| format!("{} {shown}", end.side.letter()));
                lettered.collect::<Vec<_>>().join("; ")
            }
            [first, ..] => first.clone(),
            [] => String::new(),
        }
    }
}
