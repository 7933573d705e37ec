use crate::assess::Quantity;
use crate::engine::{Domain, Limit, PartKind, Standing, raises, searched};
use crate::piece::KnobKind;
use crate::source;
use crate::units::Unit;

/// Ethanol in the water phase, by volume, that counts as a hurdle to yeast (recalled).
const HURDLE: f64 = 0.18;
/// Sorbic acid that counts as one where the filling is as sour as this or sourer (common practice).
const SORBIC_ACID: f64 = 1000e-6;
const SOUR: f64 = 5.0;
/// The longest promise that a filling open to yeast may bear, in seconds: three weeks.
const SHORT_PROMISE: f64 = 21.0 * 86_400.0;

crate::rule! {
    /// Yeasts that love sugar grow down to a water activity of 0.62: gas lifts the cap and cracks the shell, often only after weeks. From
    /// 0.70 it is likely and from 0.80 it is to be expected; strong spirit in the water phase, or sorbate in a sour filling, slows it and
    /// never rules it out.
    YeastCouldFerment {
        id: "yeast-could-ferment",
        title: "yeast could ferment the filling",
        domain: Domain::Keeping,
        part: PartKind::Layer,
        also_reads: &[Quantity::SpiritStrength, Quantity::SorbicAcid, Quantity::Ph, Quantity::KeepPromised],
        shows: &[Quantity::SpiritStrength, Quantity::SorbicAcid],
        drivers: &[searched(KnobKind::IngredientMass), searched(KnobKind::Sweetener), raises(KnobKind::CookedMass)],
    }
    limits {
        POSSIBLE = Limit::at_most("yeast.possible", Quantity::WaterActivity, 0.62, Unit::One)
            .advice()
            .from(Standing::Measured, &source::BANWART_1989, "Zygosaccharomyces rouxii from 0.62");
        LIKELY = Limit::at_most("yeast.likely", Quantity::WaterActivity, 0.70, Unit::One)
            .from(Standing::Measured, &source::PRALINE_YEASTS, "isolates from pralines grew to 0.70");
        LIKELY_HELD = Limit::at_most("yeast.likely-held-back", Quantity::WaterActivity, 0.70, Unit::One)
            .advice()
            .from(Standing::Measured, &source::PRALINE_YEASTS, "isolates from pralines grew to 0.70; spirit or sorbate holds them back");
        EXPECTED = Limit::at_most("yeast.expected", Quantity::WaterActivity, 0.80, Unit::One)
            .breach()
            .from(Standing::Measured, &source::PRALINE_YEASTS, "pralines of 0.80 and above carried up to ten million yeasts per gram");
        EXPECTED_HELD = Limit::at_most("yeast.expected-held-back", Quantity::WaterActivity, 0.80, Unit::One)
            .from(Standing::Measured, &source::PRALINE_YEASTS, "as above, but a short promise, spirit or sorbate holds them back");
    }
    |look, out| {
        let promise = look.assessment.whole.get(Quantity::KeepPromised);
        let long = promise.value().is_none_or(|keep| keep > SHORT_PROMISE);
        let spirit = look.get(Quantity::SpiritStrength).value().is_some_and(|strength| strength >= HURDLE);
        let sour = look.get(Quantity::Ph).known().is_some_and(|ph| ph.band.high <= SOUR);
        let sorbate = look.get(Quantity::SorbicAcid).value().is_some_and(|acid| acid >= SORBIC_ACID);
        let hurdle = spirit || sorbate && sour;
        look.compare(if long && !hurdle { &EXPECTED } else { &EXPECTED_HELD }, out);
        look.compare(if hurdle { &LIKELY_HELD } else { &LIKELY }, out);
        look.compare(&POSSIBLE, out);
    }
}
