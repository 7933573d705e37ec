//! A filling in a store below zero: how much of it is ice.

use super::{Assessed, Estimate, Evidence, PartAssessment, Quantity};
use crate::matter::Composition;
use crate::models::water::ice;
use crate::units::{Checked, Temperature};

pub(super) fn assess(part: &mut PartAssessment, composition: Option<&Composition>, store: Option<Temperature>) {
    // What is not frozen is not asked about ice.
    let Some(store) = store.filter(|store| store.celsius() < 0.0) else { return };
    let Some(composition) = composition else { return part.put(Quantity::Ice, Assessed::lacking(Quantity::Composition)) };
    if composition.of(crate::matter::Constituent::Water) <= 0.0 {
        return;
    }
    part.put(
        Quantity::Ice,
        ice(composition, store).map_or(Assessed::lacking(Quantity::Composition), |ice| {
            Assessed::Known(Estimate { band: ice.share.map(Checked::base), evidence: Evidence::Modelled, in_range: ice.in_range })
        }),
    );
}
