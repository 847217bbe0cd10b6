//! How much of meshes a bay may hold.

use crate::model::{Bay, Shape};
use crate::units::quotable;

use super::fault::Fault;
use super::mesh::MOST_TRIANGLES;
use super::things::MAX_BAY_MM;

/// Faults of meshes that reach out of the bay, or are too much for it.
pub(super) fn mesh_faults(bay: &Bay) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut count = 0;
    let mut is_told = false;
    for (i, obstacle) in bay.obstacles.iter().enumerate() {
        let Shape::Mesh { mesh, file, .. } = &obstacle.shape else { continue };
        let mut fault = |found: String, expected: String, hint: &str| {
            let pointer = format!("/obstacles/{i}/file");
            faults.push(Fault { pointer, found, expected, hint: Some(hint.to_owned()) });
        };
        count += mesh.triangles().len();
        if count > MOST_TRIANGLES && !is_told {
            is_told = true;
            fault(
                format!("{count} triangles in the meshes up to this one"),
                format!("no more than {MOST_TRIANGLES} triangles in all meshes of a bay"),
                "thin the mesh out, or put boxes and cylinders in its place",
            );
        }
        let (low, high) = mesh.bounds();
        let reach = low.abs().max(high.abs()).max_element();
        if reach > MAX_BAY_MM {
            fault(
                format!("\"{}\", which reaches to {reach:.0} millimetres", quotable(file)),
                format!("nothing farther from the origin than {MAX_BAY_MM} millimetres (100 m)"),
                "check \"scale\" (millimetres per unit of the file) and \"at\"",
            );
        }
    }
    faults
}
