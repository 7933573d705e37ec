//! What the parts make together: how the layers stand in the shell, what the cap weighs on.

use super::{
    Assessed, Assessment, Estimate, Evidence, PartAssessment, Quantity, QuantitySet, Stale, allergens, cap, contact, law, shell, workshop,
};
use crate::matter::Emulsifier;
use crate::models::cavity::Cavity;
use crate::models::flow::cap_support::Pour;
use crate::models::heat::warm_filling::{Charge, SetShell};
use crate::piece::{Amount, Piece};
use crate::units::quantity::{
    Density, Length, Mass, Stress, Volume, cubic_meter, kilogram, kilogram_per_cubic_meter, meter, pascal, ratio,
};
use crate::units::{Band, Checked, Temperature};

/// How far the inside of a cavity known only by its volume may be off, with its shell in it.
const INEXACT_CAVITY: f64 = 0.1;
/// A room that is not described, in degrees Celsius.
const ROOM: f64 = 20.0;

/// What the closing puts on the parts.
const OF_SHELL: QuantitySet = QuantitySet::of_each(&[Quantity::DoseInDivisions, Quantity::ShellMass]);
const OF_LAYER: QuantitySet = QuantitySet::of_each(&[
    Quantity::LayerVolume,
    Quantity::LayerMass,
    Quantity::DensityRatio,
    Quantity::YieldNeeded,
    Quantity::YieldNeededAnyPour,
    Quantity::CapSupport,
    Quantity::CapSupportAnyPour,
]);
const OF_CAP: QuantitySet = QuantitySet::of_each(&[Quantity::CapRoom, Quantity::CapMass]);
const OF_WHOLE: QuantitySet = QuantitySet::of_each(&[
    Quantity::CavityVolume,
    Quantity::InnerVolume,
    Quantity::Opening,
    Quantity::FillShare,
    Quantity::Headroom,
    Quantity::HeadroomShare,
    Quantity::PieceMass,
    Quantity::ChocolateShare,
]);

/// What law asks of the piece, little enough to reckon anew every time.
const OF_LAW: QuantitySet = QuantitySet::of_each(&[
    Quantity::ChocolateInAll,
    Quantity::AddedPolyols,
    Quantity::EthanolByMass,
    Quantity::EthanolMass,
    Quantity::EthanolByVolume,
    Quantity::PureAlcohol,
    Quantity::SpiritPerMass,
    Quantity::StrongestSpirit,
]);

/// Puts together what is stale, the parts being assessed already.
pub(super) fn assess(piece: &Piece, assessment: &mut Assessment, stale: &Stale) {
    if stale.everything {
        assessment.whole.clear();
        cap::assess(piece, &mut assessment.cap);
    }
    if let Some(top) = assessment.layers.last_mut() {
        top.under_cap = true;
    }
    let Assessment { whole, shell, layers, .. } = assessment;
    // A recipe may make another kind of filling of a layer.
    if stale.workshop || !stale.layers.is_empty() {
        whole.forget(QuantitySet::of(Quantity::EmulsifiedAt));
        workshop::assess(piece, shell, whole, |kind| layers.iter().any(|layer| layer.kind == Some(kind)));
    }
    if stale.allergens || stale.all_layers || !stale.layers.is_empty() {
        allergens::assess(piece, assessment);
    }
    let moved = stale.closing && close(piece, assessment, stale);
    if stale.contact || moved {
        contact::assess(piece, assessment);
    }
    assessment.whole.forget(OF_LAW);
    law::assess_piece(piece, assessment);
}

/// Closes the piece, as far as it is described; whether any layer weighs otherwise than before.
fn close(piece: &Piece, assessment: &mut Assessment, stale: &Stale) -> bool {
    assessment.whole.forget(OF_WHOLE);
    assessment.shell.forget(OF_SHELL);
    assessment.cap.forget(OF_CAP);
    assessment.layers.iter_mut().for_each(|layer| layer.forget(OF_LAYER));
    if piece.mould.is_some() || piece.cap.is_some() {
        assess_closing(piece, assessment);
        assess_warmth(piece, assessment, stale);
    } else {
        lack_amounts(piece, &mut assessment.layers, Assessed::lacking(Quantity::CavityVolume));
    }
    assessment.layers.iter().any(|layer| !layer.is_as_before(Quantity::LayerMass))
}

/// How the layers stand in the shell, and whether the top one carries the cap.
fn assess_closing(piece: &Piece, assessment: &mut Assessment) {
    let outer = piece.mould.map(|mould| mould.cavity);
    let whole = &mut assessment.whole;
    whole
        .put(Quantity::CavityVolume, Assessed::declared_or(outer.map(|outer| outer.volume().get::<cubic_meter>()), Quantity::CavityVolume));
    let round = outer.and_then(|outer| outer.is_round()).map(|round| f64::from(u8::from(round)));
    whole.put(Quantity::RoundWalls, Assessed::declared_or(round, Quantity::RoundWalls));
    let inner = inside(outer, assessment.shell.get(Quantity::WallThickness));
    let stand = match &inner {
        Ok(inner) => {
            let doubt = if inner.is_exact() { 0.0 } else { INEXACT_CAVITY * inner.volume().get::<cubic_meter>() };
            let volume = Band::normal(inner.volume().get::<cubic_meter>(), doubt / 2.0);
            whole.put(Quantity::InnerVolume, Assessed::Known(by_arithmetic(volume)));
            whole.put(Quantity::Opening, Assessed::declared(inner.opening().get::<meter>()));
            stand(piece, &mut assessment.layers, inner, volume)
        }
        Err(missing) => Stand::unknown(*missing),
    };
    if inner.is_err() {
        whole.put(Quantity::InnerVolume, stand.headroom);
        whole.put(Quantity::Opening, stand.headroom);
        lack_amounts(piece, &mut assessment.layers, stand.headroom);
    }
    whole.put(Quantity::FillShare, stand.share);
    if piece.layers.is_empty() {
        return;
    }
    whole.put(Quantity::Headroom, stand.headroom);
    whole.put(
        Quantity::HeadroomShare,
        stand.empty.with(whole.get(Quantity::InnerVolume), |empty, inner| {
            Assessed::Known(by_arithmetic(empty.band.map(|empty| empty / inner.value())))
        }),
    );
    assessment.cap.put(Quantity::CapRoom, stand.headroom);
    assess_masses(piece, assessment, outer, stand.empty);
    assess_support(assessment, stand.headroom);
}

/// How much of the shell each layer melts as it is poured, unless layer and shell are as they were.
fn assess_warmth(piece: &Piece, assessment: &mut Assessment, stale: &Stale) {
    let Some(shell) = shell::poured(piece).map(|poured| poured.composition()) else { return };
    // The shell waits as warm as its mould, or as the room.
    let waits = piece.workshop.mould_temperature.or(piece.workshop.air_temperature).unwrap_or(Temperature::nearest(ROOM));
    let shell_mass = assessment.shell.get(Quantity::ShellMass);
    let same_shell = assessment.shell.is_as_before(Quantity::ShellMass);
    let charge = |matter, mass: Estimate, temperature| Charge { matter, mass: Mass::new::<kilogram>(mass.value()), temperature };
    let set = shell_mass.known().map(|mass| SetShell::of(charge(&shell, mass, waits)));
    for (index, (layer, part)) in piece.layers.iter().zip(&mut assessment.layers).enumerate() {
        let (Some(temperature), Some(recipe)) = (layer.temperature, &layer.recipe) else { continue };
        if same_shell && part.is_as_before(Quantity::LayerMass) && !stale.warms(index) {
            continue;
        }
        let melted = shell_mass.with(part.get(Quantity::LayerMass), |_, mass| {
            set.as_ref().map_or(Assessed::Absent, |set| {
                let mixed = set.meets(charge(recipe.composition(), mass, temperature));
                Assessed::Known(Estimate::modelled(mixed.melted.map(|share| share.get::<ratio>())))
            })
        });
        part.put(Quantity::ShellMelted, melted);
    }
}

/// The cavity inside the shell, or what lacks to tell.
fn inside(outer: Option<Cavity>, wall: Assessed) -> Result<Cavity, QuantitySet> {
    let wall_lacks = if wall == Assessed::Absent { QuantitySet::of(Quantity::WallThickness) } else { wall.missing() };
    let mould_lacks = if outer.is_none() { QuantitySet::of(Quantity::CavityVolume) } else { QuantitySet::default() };
    match (outer, wall.value()) {
        (Some(outer), Some(wall)) => outer.lined(Length::new::<meter>(wall)).map_err(|_| QuantitySet::of(Quantity::WallThickness)),
        _ => Err(wall_lacks.union(mould_lacks)),
    }
}

/// How the layers stand together.
struct Stand {
    /// Depth left under the rim.
    headroom: Assessed,
    /// Volume left under the rim.
    empty: Assessed,
    /// What is poured by mass or volume over the volume inside.
    share: Assessed,
}

impl Stand {
    fn unknown(missing: QuantitySet) -> Self {
        let lacking = Assessed::Missing(missing);
        Self { headroom: lacking, empty: lacking, share: lacking }
    }
}

/// Pours the layers one by one: puts mass and volume of each, and tells how high they stand.
fn stand(piece: &Piece, layers: &mut [PartAssessment], inner: &Cavity, inner_volume: Band<f64>) -> Stand {
    let mut poured = Assessed::declared(0.0);
    let mut measured_out = Assessed::Absent;
    let mut filled_to = None;
    for (layer, part) in piece.layers.iter().zip(layers) {
        let density = part.get(Quantity::Density);
        let volume = match layer.amount {
            None => Assessed::lacking(Quantity::LayerVolume),
            Some(Amount::Volume(volume)) => Assessed::declared(volume.base()),
            Some(Amount::Mass(mass)) => density.then(|density| Assessed::Known(by_arithmetic(over(mass.base(), density.band)))),
            Some(Amount::FillTo(depth)) => {
                let level = inner.volume_below(depth.quantity()).get::<cubic_meter>();
                poured.then(|poured| Assessed::Known(by_arithmetic(minus(level, poured.band).map(|volume| volume.max(0.0)))))
            }
        };
        let mass = match layer.amount {
            Some(Amount::Mass(mass)) => Assessed::declared(mass.base()),
            _ => volume.with(density, |volume, density| Assessed::Known(by_arithmetic(times(volume.band, density.band)))),
        };
        part.put(Quantity::LayerVolume, volume);
        part.put(Quantity::LayerMass, mass);
        if let Some(Amount::FillTo(depth)) = layer.amount {
            poured = Assessed::declared(inner.volume_below(depth.quantity()).get::<cubic_meter>());
            filled_to = Some(depth.base());
        } else {
            filled_to = None;
            poured = poured.with(volume, |poured, volume| Assessed::Known(by_arithmetic(plus(poured.band, volume.band))));
            let so_far = if measured_out == Assessed::Absent { Assessed::declared(0.0) } else { measured_out };
            measured_out = so_far.with(volume, |one, two| Assessed::Known(by_arithmetic(plus(one.band, two.band))));
        }
    }
    let headroom = match filled_to {
        Some(depth) => Assessed::declared(depth),
        None => poured.then(|poured| Assessed::Known(by_arithmetic(level(inner, poured.band)))),
    };
    let empty = poured.then(|poured| {
        let empty = minus(inner_volume.value, poured.band).map(|volume| volume.max(0.0));
        Assessed::Known(by_arithmetic(empty))
    });
    let share = measured_out.then(|poured| {
        let band = Band {
            value: poured.band.value / inner_volume.value,
            low: poured.band.low / inner_volume.high,
            high: poured.band.high / inner_volume.low,
        };
        Assessed::Known(by_arithmetic(band))
    });
    Stand { headroom, empty, share }
}

/// Layers poured by mass have their mass even where the room for them is not known.
fn lack_amounts(piece: &Piece, layers: &mut [PartAssessment], room: Assessed) {
    for (layer, part) in piece.layers.iter().zip(layers) {
        let mass = match layer.amount {
            Some(Amount::Mass(mass)) => Assessed::declared(mass.base()),
            Some(_) => room,
            None => Assessed::lacking(Quantity::LayerMass),
        };
        part.put(Quantity::LayerMass, mass);
    }
}

/// The depth left under the rim when so much is poured; none left when it does not fit.
fn level(inner: &Cavity, poured: Band<f64>) -> Band<f64> {
    let level = |volume: f64| inner.level_of(Volume::new::<cubic_meter>(volume.max(0.0))).map_or(0.0, |depth| depth.get::<meter>());
    if !is_wide(poured) {
        return Band::exact(level(poured.value));
    }
    Band { value: level(poured.value), low: level(poured.high), high: level(poured.low) }
}

fn assess_masses(piece: &Piece, assessment: &mut Assessment, outer: Option<Cavity>, empty: Assessed) {
    let wall = assessment.shell.get(Quantity::WallThickness);
    let volume = |quantity| assessment.whole.get(quantity).value();
    let shell_volume = volume(Quantity::CavityVolume).zip(volume(Quantity::InnerVolume)).map(|(outer, inner)| outer - inner);
    let shell_density = shell::poured(piece).map(|poured| poured.solid_density());
    let shell_mass = match (outer, shell_density) {
        (Some(_), Some(density)) => wall.then(|_| match shell_volume {
            Some(volume) => Assessed::Known(by_arithmetic(density.map(|density| density * volume))),
            None => Assessed::lacking(Quantity::WallThickness),
        }),
        (None, _) => Assessed::lacking(Quantity::CavityVolume),
        (_, None) => Assessed::lacking(Quantity::WallThickness),
    };
    // Where it is not mixed apart it is the chocolate of the shell.
    let cap_density = match piece.cap.as_ref().filter(|cap| cap::is_mixed_apart(cap)) {
        Some(_) => cap::poured(piece).map(|poured| poured.solid_density()),
        None => shell_density,
    };
    let cap_mass = match cap_density {
        Some(density) => empty.then(|empty| Assessed::Known(by_arithmetic(times(empty.band, density)))),
        None => Assessed::lacking(Quantity::ChocolateDensity),
    };
    let add = |one: Assessed, two: Assessed| one.with(two, |one, two| Assessed::Known(by_arithmetic(plus(one.band, two.band))));
    let chocolate = add(shell_mass, cap_mass);
    let piece_mass = assessment.layers.iter().map(|layer| layer.get(Quantity::LayerMass)).fold(chocolate, add);
    assessment.shell.put(Quantity::DoseInDivisions, dose_in_divisions(piece, shell_mass, cap_mass, chocolate));
    assessment.shell.put(Quantity::ShellMass, shell_mass);
    assessment.cap.put(Quantity::CapMass, cap_mass);
    assessment.whole.put(Quantity::PieceMass, piece_mass);
    let share =
        chocolate.with(piece_mass, |chocolate, whole| Assessed::Known(by_arithmetic(chocolate.band.map(|mass| mass / whole.value()))));
    assessment.whole.put(Quantity::ChocolateShare, share);
}

/// The smallest emulsifier dose for all the shells and caps of the batch, in divisions of the scale: into one pot, or into two where the cap's
/// chocolate is mixed apart.
fn dose_in_divisions(piece: &Piece, shell_mass: Assessed, cap_mass: Assessed, both: Assessed) -> Assessed {
    let least = |emulsifiers: &[Emulsifier]| {
        emulsifiers.iter().map(|emulsifier| emulsifier.dose.base()).filter(|dose| *dose > 0.0).reduce(f64::min)
    };
    let apart = piece.cap.as_ref().filter(|cap| cap::is_mixed_apart(cap));
    let of_shell = piece.shell.as_ref().and_then(|shell| least(&shell.emulsifiers));
    let of_cap = apart.and_then(|_| least(cap::poured(piece)?.emulsifiers));
    let pots = [(of_shell, if apart.is_some() { shell_mass } else { both }), (of_cap, cap_mass)];
    let doses = pots.into_iter().filter_map(|(dose, pot)| {
        let dose = dose?;
        Some(pot.then(|pot| Assessed::Known(by_arithmetic(pot.band.map(|mass| mass * dose)))))
    });
    let smaller =
        |one: Assessed, two: Assessed| one.with(two, |one, two| Assessed::Known(if one.value() <= two.value() { one } else { two }));
    let Some(dose) = doses.reduce(smaller) else { return Assessed::Absent };
    let moulds = piece.batch.as_ref().and_then(|batch| batch.moulds).map(f64::from);
    let cavities = piece.mould.and_then(|mould| mould.cavities).map(f64::from);
    let division = piece.workshop.scale_division.map(Checked::base).filter(|division| *division > 0.0);
    match (moulds, cavities, division) {
        (Some(moulds), Some(cavities), Some(division)) => {
            dose.then(|dose| Assessed::Known(by_arithmetic(dose.band.map(|mass| mass * moulds * cavities / division))))
        }
        _ => Assessed::lacking(Quantity::DoseInDivisions),
    }
}

/// Whether the top layer carries the cap that the headroom takes.
fn assess_support(assessment: &mut Assessment, headroom: Assessed) {
    // Where nothing was assessed on the cap's chocolate it is that of the shell.
    let chocolate = [&assessment.cap, &assessment.shell].map(|part| part.get(Quantity::ChocolateDensity));
    let cap = chocolate.into_iter().find_map(Assessed::known).map(|density| density.band);
    let opening = assessment.whole.get(Quantity::Opening).value().map(Length::new::<meter>);
    let Some(top) = assessment.layers.last_mut() else { return };
    let (density, yield_value) = (top.get(Quantity::Density), top.get(Quantity::YieldValue));
    let Some(cap) = cap else {
        for quantity in [Quantity::DensityRatio, Quantity::CapSupport, Quantity::CapSupportAnyPour] {
            top.put(quantity, Assessed::lacking(Quantity::ChocolateDensity));
        }
        return;
    };
    top.put(
        Quantity::DensityRatio,
        density.then(|filling| {
            let band = Band { value: filling.value() / cap.value, low: filling.band.low / cap.high, high: filling.band.high / cap.low };
            Assessed::Known(Estimate::modelled(band))
        }),
    );
    let (Assessed::Known(filling), Assessed::Known(strength), Assessed::Known(depth), Some(opening)) =
        (density, yield_value, headroom, opening)
    else {
        let missing = density.missing().union(yield_value.missing()).union(headroom.missing());
        top.put(Quantity::CapSupport, Assessed::Missing(missing));
        top.put(Quantity::CapSupportAnyPour, Assessed::Missing(missing));
        return;
    };
    let support = |depth: f64| {
        let pour = Pour {
            cap: cap.map(Density::new::<kilogram_per_cubic_meter>),
            filling: filling.band.map(Density::new::<kilogram_per_cubic_meter>),
            yield_value: strength.band.map(Stress::new::<pascal>),
            opening,
            depth: Length::new::<meter>(depth),
        };
        pour.support()
    };
    let poured = support(depth.value());
    let (shallow, deep) = if is_wide(depth.band) { (support(depth.band.low), support(depth.band.high)) } else { (poured, poured) };
    top.put(Quantity::YieldNeeded, Assessed::Known(Estimate::modelled(Band::exact(poured.needed.get::<pascal>()))));
    top.put(Quantity::YieldNeededAnyPour, Assessed::Known(Estimate::modelled(Band::exact(poured.needed_safe.get::<pascal>()))));
    // A filling that carries by its density alone does not depend on how well its yield value is known.
    let carried = filling.band.low >= cap.high;
    let banded = |value: f64, low: f64, high: f64| {
        Assessed::Known(Estimate { band: Band { value, low, high }, evidence: Evidence::Modelled, in_range: carried || strength.in_range })
    };
    let plain = |band: Band<crate::units::quantity::Ratio>| band.map(|support| support.get::<ratio>());
    let (gentle, any) = (plain(poured.support), plain(poured.support_safe));
    top.put(Quantity::CapSupport, banded(gentle.value, plain(deep.support).low, plain(shallow.support).high));
    top.put(Quantity::CapSupportAnyPour, banded(any.value, plain(deep.support_safe).low, plain(shallow.support_safe).high));
}

/// A number that follows from others by arithmetic: stated if it is exact, modelled if a model's band came in.
fn by_arithmetic(band: Band<f64>) -> Estimate {
    if is_wide(band) { Estimate::modelled(band) } else { Estimate::declared(band.value) }
}

fn is_wide(band: Band<f64>) -> bool {
    band.high > band.low
}

fn plus(one: Band<f64>, two: Band<f64>) -> Band<f64> {
    Band { value: one.value + two.value, low: one.low + two.low, high: one.high + two.high }
}

fn minus(one: f64, two: Band<f64>) -> Band<f64> {
    Band { value: one - two.value, low: one - two.high, high: one - two.low }
}

fn times(one: Band<f64>, two: Band<f64>) -> Band<f64> {
    Band { value: one.value * two.value, low: one.low * two.low, high: one.high * two.high }
}

fn over(one: f64, two: Band<f64>) -> Band<f64> {
    Band { value: one / two.value, low: one / two.high, high: one / two.low }
}
