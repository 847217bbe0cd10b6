//! What is gathered while a file is read: faults, references to be looked up, and what is in doubt.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use glam::DVec3;

use crate::model::{Bay, Mesh};

use super::super::fault::Fault;
use super::super::mesh::MeshSource;
use super::doubts::{Doubts, Family};
use super::reference::{Want, unmet};

/// A mesh's file with the bits of its unit.
type MeshUnit = (String, u64);

/// Gathers through a shared reference, so that every part of the reader can hold it.
pub(crate) struct Context<'m> {
    meshes: &'m dyn MeshSource,
    read_meshes: RefCell<BTreeMap<MeshUnit, Result<Mesh, String>>>,
    faults: RefCell<Vec<(u32, Fault)>>,
    wants: RefCell<Vec<Want>>,
    doubts: RefCell<Doubts>,
}

impl<'m> Context<'m> {
    pub(crate) fn new(meshes: &'m dyn MeshSource) -> Self {
        Self {
            meshes,
            read_meshes: RefCell::default(),
            faults: RefCell::default(),
            wants: RefCell::default(),
            doubts: RefCell::default(),
        }
    }

    /// Notes a fault of the value at this place in the order of the file.
    pub(crate) fn fault(&self, order: u32, fault: Fault) {
        self.faults.borrow_mut().push((order, fault));
    }

    pub(crate) fn fault_count(&self) -> usize {
        self.faults.borrow().len()
    }

    pub(crate) fn want(&self, want: Want) {
        self.wants.borrow_mut().push(want);
    }

    pub(crate) fn doubt_ids(&self, family: Family) {
        self.doubts.borrow_mut().doubt_ids(family);
    }

    pub(crate) fn doubt_sizes(&self, family: Family, id: &str) {
        self.doubts.borrow_mut().doubt_sizes(family, id);
    }

    /// The mesh of this file as it lies in the bay; read once and shared, however often it is named.
    pub(crate) fn mesh(&self, file: &str, scale: f64, at: DVec3) -> Result<Arc<Mesh>, String> {
        let of_unit = self.mesh_of_unit(file, scale)?;
        Ok(Arc::new(of_unit.placed(1.0, at)))
    }

    fn mesh_of_unit(&self, file: &str, scale: f64) -> Result<Mesh, String> {
        let key = (file.to_owned(), scale.to_bits());
        if let Some(known) = self.read_meshes.borrow().get(&key) {
            return known.clone();
        }
        let mesh = if scale == 1.0 {
            self.meshes.mesh(file)
        } else {
            self.mesh_of_unit(file, 1.0).map(|mesh| mesh.placed(scale, DVec3::ZERO))
        };
        self.read_meshes.borrow_mut().insert(key, mesh.clone());
        mesh
    }

    /// Looks up every reference, now that all of the bay is read; `stock` is what its stock is called.
    pub(crate) fn check_references(&self, bay: &Bay, stock: &str) {
        let found = unmet(&self.wants.borrow(), (bay, stock), &self.doubts.borrow());
        self.faults.borrow_mut().extend(found);
    }

    /// All faults in the order of the file; those of meshes too large come last.
    pub(crate) fn into_faults(self) -> Vec<Fault> {
        let mut faults = self.faults.into_inner();
        faults.sort_by_key(|(order, _)| *order);
        faults.into_iter().map(|(_, fault)| fault).collect()
    }
}
