//! Whether each filling carries the chocolate that closes it: what it must carry, what it has, and how much xanthan would make up for it.
//!
//! `cargo run --release --example close_a_piece -- [FILE]`, by default the winter box.

mod terminal;

use cordial::assess::{Assessment, Estimate, Part, PartAssessment, Quantity, assess};
use cordial::matter::{Constituent, Larder, Recipe, RecipeLine};
use cordial::models::flow::{cap_support, xanthan};
use cordial::piece::{FillingKind, Layer, Piece};
use cordial::units::quantity::{Density, Length, Stress, kilogram_per_cubic_meter, meter, pascal, ratio};
use cordial::units::{Band, Checked, Portion};
use std::{error::Error, process::ExitCode};
use terminal::{Arguments, document, ended, say};

/// Xanthan is weighed, and searched, in these steps; in grams.
const STEP: f64 = 0.1;
/// Grams per 100 g of water up to which the figures of xanthan hold.
const MOST: f64 = 1.5;

fn main() -> ExitCode {
    ended(run())
}

fn run() -> Result<(), Box<dyn Error>> {
    let document = document(Arguments::read(&[], &[])?.words.first())?;
    let closings: Vec<_> = document.pieces().iter().map(|piece| (piece, Closing::of(piece))).collect();

    say!("                                             yield value, Pa                             density");
    say!("                                             needed for a pour   of the filling          over the   xanthan, g a batch");
    say!("piece                                        gentle     any      (95 % of cases)         cap's      likely   to be sure");
    for (piece, closing) in &closings {
        match closing {
            Ok(closing) => closing.tabulate(piece),
            Err(lacks) => say!("{:44} cannot be told without {lacks}", piece.name),
        }
    }
    for (piece, closing) in &closings {
        if let Ok(closing) = closing {
            say!("\n{}", piece.name);
            closing.tell();
        }
    }
    Ok(())
}

/// A filling under its cap.
struct Closing<'a> {
    layer: &'a Layer,
    gentle: f64,
    any_pour: f64,
    yield_value: Band<f64>,
    density_ratio: Band<f64>,
    support: Estimate,
    support_any_pour: Estimate,
    two_coats: Verdict,
    gum: Option<Gum>,
}

#[derive(Clone, Copy, PartialEq)]
enum Verdict {
    Carries,
    Perhaps,
    Sinks,
}

/// Xanthan for the batch, in grams.
struct Gum {
    gentle: Dose,
    any_pour: Dose,
    batch: f64,
}

struct Dose {
    /// Enough by the best estimate.
    likely: f64,
    /// Enough in 97.5 % of cases; none where no dose in range is.
    sure: Option<f64>,
}

impl<'a> Closing<'a> {
    /// # Errors
    /// What lacks.
    fn of(piece: &'a Piece) -> Result<Self, String> {
        let assessment = assess(piece);
        let (layer, top) = piece.layers.last().zip(assessment.layers.last()).ok_or("a layer")?;
        let of = |part: &PartAssessment, quantity: Quantity| part.get(quantity).known().ok_or_else(|| quantity.ask().to_owned());
        let yield_value = of(top, Quantity::YieldValue)?.band;
        let (support, support_any_pour) = (of(top, Quantity::CapSupport)?, of(top, Quantity::CapSupportAnyPour)?);
        let (gentle, any_pour) = (of(top, Quantity::YieldNeeded)?.value(), of(top, Quantity::YieldNeededAnyPour)?.value());
        let cap = cap_density(&assessment).ok_or_else(|| Quantity::ChocolateDensity.ask().to_owned())?;
        let headroom = Length::new::<meter>(of(&assessment.whole, Quantity::Headroom)?.value());
        let in_two = |pascals: f64| cap_support::two_thin_coats(cap, Stress::new::<pascal>(pascals), headroom);
        Ok(Self {
            layer,
            gentle,
            any_pour,
            yield_value,
            density_ratio: of(top, Quantity::DensityRatio)?.band,
            support,
            support_any_pour,
            two_coats: Verdict::between(in_two(yield_value.low), in_two(yield_value.high)),
            gum: gum(piece, top, [gentle, any_pour]),
        })
    }

    fn tabulate(&self, piece: &Piece) {
        let Band { value, low, high } = self.yield_value;
        let has = if high > low { format!("{} ({} to {})", pascals(value), pascals(low), pascals(high)) } else { pascals(value) };
        let gum = self.gum.as_ref().map_or(String::new(), |gum| {
            let sure = gum.gentle.sure.map_or("none".into(), |sure| format!("{sure:.1}"));
            format!("{:>6.1} {sure:>12}", gum.gentle.likely)
        });
        let row = format!(
            "{:44} {:>6} {:>7}      {has:<22}  {:>8.3}  {gum}",
            piece.name,
            pascals(self.gentle),
            pascals(self.any_pour),
            self.density_ratio.value
        );
        say!("{}", row.trim_end());
    }

    fn tell(&self) {
        let (name, gentle, any) = (&self.layer.name, Verdict::of(&self.support), Verdict::of(&self.support_any_pour));
        let (needed, needed_any) = (pascals(self.gentle), pascals(self.any_pour));
        match (gentle, any) {
            (Verdict::Carries, Verdict::Carries) => say!("  The {name} carries the cap however it is poured."),
            (Verdict::Carries, _) => {
                say!("  The {name} carries the cap if it is poured gently; under a hard pour it would want {needed_any} Pa.")
            }
            (Verdict::Perhaps, _) => {
                say!("  Whether the {name} carries the cap cannot be told: it needs {needed} Pa. Measure, or close one and see.")
            }
            (Verdict::Sinks, _) => say!("  The cap sinks into the {name}: it needs {needed} Pa, {needed_any} Pa under any pour."),
        }
        let Band { low, high, .. } = self.density_ratio;
        if low >= 1.0 {
            say!("  It is heavier than liquid chocolate: the cap floats whatever the yield value.");
        } else if high >= 1.0 && gentle != Verdict::Carries {
            say!("  It is about as heavy as liquid chocolate, {low:.2} to {high:.2} times: the cap may float.");
        }
        if gentle != Verdict::Carries {
            say!(
                "  {}",
                match self.two_coats {
                    Verdict::Carries => "Two thin coats, the first left to set, are carried.",
                    Verdict::Perhaps => "Two thin coats, the first left to set, are perhaps carried.",
                    Verdict::Sinks => "Two thin coats are not carried either.",
                }
            );
        }
        match &self.gum {
            Some(gum) => {
                say!("  Xanthan for the batch of {:.0} g, swollen in syrup or water before any spirit goes in:", gum.batch);
                say!("  - for a gentle pour: {};", gum.gentle.words());
                say!("  - for any pour: {}.", gum.any_pour.words());
            }
            None if gentle != Verdict::Carries => say!("  Gum is no way here: let it set or cool longer, or cook it further."),
            None => {}
        }
    }
}

impl Verdict {
    fn of(support: &Estimate) -> Self {
        Self::between(support.band.low >= 1.0 && support.in_range, support.band.high >= 1.0)
    }

    fn between(surely: bool, possibly: bool) -> Self {
        match (surely, possibly) {
            (true, _) => Self::Carries,
            (false, true) => Self::Perhaps,
            (false, false) => Self::Sinks,
        }
    }
}

impl Dose {
    fn words(&self) -> String {
        let likely =
            if self.likely > 0.0 { format!("{:.1} g more will likely do", self.likely) } else { "what is in it will likely do".into() };
        match self.sure {
            Some(sure) if sure <= 0.0 => "no more is needed".into(),
            Some(sure) => format!("{likely}, {sure:.1} g more to be sure"),
            None => format!("{likely}; no dose within what is known is sure"),
        }
    }
}

/// Of the chocolate poured as the cap.
fn cap_density(assessment: &Assessment) -> Option<Density> {
    let own = |part| assessment.part(part)?.get(Quantity::ChocolateDensity).value();
    own(Part::Cap).or_else(|| own(Part::Shell)).map(Density::new::<kilogram_per_cubic_meter>)
}

/// The xanthan to add to a spirit for a gentle pour and for any.
fn gum(piece: &Piece, top: &PartAssessment, needed: [f64; 2]) -> Option<Gum> {
    let recipe = piece.layers.last()?.recipe.as_ref()?;
    let gummed = matches!(top.kind, Some(FillingKind::Spirit | FillingKind::Liqueur));
    let [gentle, any_pour] = needed.map(|needed| likely(recipe, needed));
    let sure = |quantity, likely: f64| sure(piece, recipe, quantity, likely);
    gummed.then_some(())?;
    Some(Gum {
        gentle: Dose { sure: sure(Quantity::CapSupport, gentle?), likely: gentle? },
        any_pour: Dose { sure: sure(Quantity::CapSupportAnyPour, any_pour?), likely: any_pour? },
        batch: 1000.0 * recipe.yielded(),
    })
}

/// Grams to add that bring the yield value to what is needed, by the best estimate.
fn likely(recipe: &Recipe, needed: f64) -> Option<f64> {
    let composition = recipe.composition();
    let per_water = xanthan::gum_for(Stress::new::<pascal>(needed), None)?.get::<ratio>();
    let of_filling = per_water * composition.of(Constituent::Water) - composition.of(Constituent::Xanthan);
    Some((1000.0 * recipe.yielded() * of_filling).max(0.0))
}

/// Grams to add with which even the low end of the band carries, assessed as a whole.
fn sure(piece: &Piece, recipe: &Recipe, quantity: Quantity, likely: f64) -> Option<f64> {
    let xanthan = Larder::built_in().get("xanthan").ok()?;
    let water = 1000.0 * recipe.yielded() * recipe.composition().of(Constituent::Water);
    let steps = (0..).map(|step| f64::from(step) * STEP).take_while(|grams| *grams <= MOST / 100.0 * water);
    steps.skip_while(|grams| *grams > 0.0 && *grams + STEP < likely).find(|grams| {
        let mut trial = piece.clone();
        let line = RecipeLine { ingredient: xanthan.clone(), mass: Portion::nearest(grams / 1000.0) };
        let (Some(layer), Ok(thickened)) = (trial.layers.last_mut(), recipe.with_line(line)) else { return false };
        layer.recipe = Some(thickened);
        layer.hydrated_first = Some(true);
        let support = assess(&trial).layers.last().and_then(|top| top.get(quantity).known());
        support.is_some_and(|support| Verdict::of(&support) == Verdict::Carries)
    })
}

fn pascals(value: f64) -> String {
    if value >= 10.0 || value <= 0.0 { format!("{value:.0}") } else { format!("{value:.1}") }
}
