//! Whether a bay in the hand could be opened again, were it saved.

use crate::model::{Bay, Mesh};

use super::mesh_limits::mesh_faults;
use super::{Fault, MeshSource, read, write};

/// Takes every mesh for readable: those of a bay in the hand are read already.
pub(super) struct AnyMesh;

impl MeshSource for AnyMesh {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        Ok(Mesh::default())
    }
}

/// What a file of this bay would be refused for; empty for a bay that can be saved and opened
/// again. Every edit has to leave this empty.
pub fn faults_of(bay: &Bay) -> Vec<Fault> {
    match write(bay) {
        Ok(text) => match read(text.as_bytes(), &AnyMesh) {
            Ok(_) => mesh_faults(bay),
            Err(super::ReadError::Faults(faults)) => faults.0,
            Err(other) => vec![Fault {
                pointer: String::new(),
                found: other.to_string(),
                expected: "a bay that can be read again".to_owned(),
                hint: None,
            }],
        },
        Err(not_finite) => vec![Fault {
            pointer: not_finite.pointer,
            found: not_finite.found,
            expected: "a number that is finite".to_owned(),
            hint: None,
        }],
    }
}
