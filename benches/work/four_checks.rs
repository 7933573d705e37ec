//! Four simple checks of a formulation: emulsifier dose, cap support, headroom, water activity of five solutes by a closed formula. In plain
//! `f64`, record by record and column by column, and by the engine.

use cordial::assess::{Assessed, Assessment, PartAssessment, Quantity};
use cordial::engine::{Bounds, Domain, Findings, Gauge, Limit, Line, PartKind, Rule, RuleSet, Standing, Tally, Verdict};
use cordial::piece::Piece;
use cordial::units::{Checked, Unit, WaterActivity};
use std::ops::Range;
use uom::si::f64::{AmountOfSubstance, Mass, MolarMass, Ratio};
use uom::si::{mass::gram, molar_mass::gram_per_mole, ratio::ratio};

/// What is checked, in base units.
#[derive(Debug, Clone, Copy, Default)]
pub struct Formulation {
    pub dose: f64,
    pub yield_value: f64,
    pub density: f64,
    pub cap_density: f64,
    pub headroom: f64,
    /// Mass fraction.
    pub water: f64,
    /// Mass fractions of sucrose, glucose, fructose, sorbitol and glycerol.
    pub solutes: [f64; 5],
}

/// The same, a column each.
#[derive(Debug, Clone, Default)]
pub struct Columns {
    pub dose: Vec<f64>,
    pub yield_value: Vec<f64>,
    pub density: Vec<f64>,
    pub cap_density: Vec<f64>,
    pub headroom: Vec<f64>,
    pub water: Vec<f64>,
    pub solutes: [Vec<f64>; 5],
}

/// The four numbers that are held against limits: dose, cap support, headroom, water activity.
pub type Numbers = [f64; 4];

/// The limits, and whether they are the least or the most.
pub const LIMITS: [(f64, bool); 4] = [(0.01, false), (1.0, true), (0.001, true), (0.85, false)];

const GRAVITY: f64 = 9.80665;
/// Load that a strip of plastic body bears, over its yield value (Prandtl 1920).
const BEARING: f64 = 2.0 + std::f64::consts::PI;
const WATER: f64 = 18.0153;
/// Molar mass and the two constants of each solute, as `cordial::models::water::Solute` has them.
pub const SOLUTES: [(f64, f64, f64); 5] =
    [(342.297, 6.8379, -4.3022), (180.156, 2.379, -0.3801), (180.156, 2.1058, -2.7444), (182.172, 1.65, 0.0), (92.094, 1.4253, -1.9102)];

/// As many formulations as wanted, the same ones every time (splitmix64).
pub fn formulations(count: usize) -> Vec<Formulation> {
    let mut state = 42_u64;
    let mut between = |low: f64, high: f64| {
        state = state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        low + (high - low) * ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut one = || Formulation {
        dose: between(0.0, 0.014),
        yield_value: between(0.0, 40.0),
        density: between(950.0, 1350.0),
        cap_density: between(1200.0, 1280.0),
        headroom: between(0.0, 0.004),
        water: between(0.15, 0.4),
        solutes: [between(0.0, 0.25), between(0.0, 0.12), between(0.0, 0.12), between(0.0, 0.08), between(0.0, 0.03)],
    };
    (0..count).map(|_| one()).collect()
}

impl Columns {
    pub fn of(formulations: &[Formulation]) -> Self {
        let column = |field: fn(&Formulation) -> f64| formulations.iter().map(field).collect();
        Self {
            dose: column(|one| one.dose),
            yield_value: column(|one| one.yield_value),
            density: column(|one| one.density),
            cap_density: column(|one| one.cap_density),
            headroom: column(|one| one.headroom),
            water: column(|one| one.water),
            solutes: [
                column(|one| one.solutes[0]),
                column(|one| one.solutes[1]),
                column(|one| one.solutes[2]),
                column(|one| one.solutes[3]),
                column(|one| one.solutes[4]),
            ],
        }
    }
}

/// Water activity of a solution of five: the product of what each makes of all the water alone (Ross 1975), each by two terms of Norrish.
fn activity(water: f64, solutes: [f64; 5]) -> f64 {
    let moles = water / WATER;
    let (mut dilution, mut pull) = (1.0, 0.0);
    for (mass, (molar_mass, k1, k2)) in solutes.iter().zip(SOLUTES) {
        let dissolved = mass * (1.0 / molar_mass);
        let x = dissolved / (dissolved + moles);
        dilution *= 1.0 - x;
        pull += x * x * (k1 + k2 * x);
    }
    dilution * (-pull).exp()
}

/// The same in plain numbers and in typed quantities, statement by statement: what do the types cost?
pub fn plain_activity(one: &Formulation) -> f64 {
    let moles = one.water / WATER;
    let (mut dilution, mut pull) = (1.0, 0.0);
    for (mass, (molar_mass, k1, k2)) in one.solutes.iter().zip(SOLUTES) {
        let dissolved = mass / molar_mass;
        let x = dissolved / (dissolved + moles);
        dilution *= 1.0 - x;
        pull += x * x * (k1 + k2 * x);
    }
    (dilution * (-pull).exp()).clamp(0.0, 1.0)
}

/// See [`plain_activity`].
pub fn typed_activity(one: &Formulation) -> WaterActivity {
    let of = |mass: f64, molar_mass: f64| Mass::new::<gram>(mass) / MolarMass::new::<gram_per_mole>(molar_mass);
    let whole = Ratio::new::<ratio>(1.0);
    let moles: AmountOfSubstance = of(one.water, WATER);
    let (mut dilution, mut pull) = (whole, Ratio::new::<ratio>(0.0));
    for (mass, (molar_mass, k1, k2)) in one.solutes.iter().zip(SOLUTES) {
        let dissolved: AmountOfSubstance = of(*mass, molar_mass);
        let x: Ratio = dissolved / (dissolved + moles);
        dilution = dilution * (whole - x);
        pull += x * x * (k1 * whole + k2 * x);
    }
    WaterActivity::nearest((dilution * (-pull).exp()).get::<ratio>())
}

/// How well a yield value carries a cap that fills the headroom; without end where the filling is the denser.
#[inline(always)]
fn support(yield_value: f64, density: f64, cap_density: f64, headroom: f64) -> f64 {
    BEARING * yield_value / (((cap_density - density).max(0.0)) * GRAVITY * headroom)
}

pub fn numbers(one: &Formulation) -> Numbers {
    let support = support(one.yield_value, one.density, one.cap_density, one.headroom);
    [one.dose, support, one.headroom, activity(one.water, one.solutes)]
}

/// How far a number is on the legal side.
#[inline(always)]
fn margin(number: f64, (limit, at_least): (f64, bool)) -> f64 {
    if at_least { number - limit } else { limit - number }
}

/// The least that can be done: four margins, and how many limits are broken.
pub fn plain(one: &Formulation, margins: &mut [f64; 4]) -> u32 {
    let mut broken = 0;
    for ((margin_of, number), limit) in margins.iter_mut().zip(numbers(one)).zip(LIMITS) {
        *margin_of = margin(number, limit);
        broken += u32::from(*margin_of < 0.0);
    }
    broken
}

/// All records, one after the other.
pub fn plain_records(formulations: &[Formulation], margins: &mut [[f64; 4]], broken: &mut [u32]) {
    for ((one, margins), broken) in formulations.iter().zip(margins).zip(broken) {
        *broken = plain(one, margins);
    }
}

impl Columns {
    /// Cap support and water activity of some rows, column by column: loops without branches, of which the compiler makes vector code.
    #[inline(always)]
    fn make<'a>(&'a self, rows: Range<usize>, of_support: &mut [f64], of_activity: &mut [f64]) {
        let of = |column: &'a Vec<f64>| column[rows.clone()].iter().copied();
        let of_body = of(&self.yield_value).zip(of(&self.density)).zip(of(&self.cap_density)).zip(of(&self.headroom));
        for (made, (((yield_value, density), cap_density), headroom)) in of_support.iter_mut().zip(of_body) {
            *made = support(yield_value, density, cap_density, headroom);
        }
        let [mut moles, mut pull] = [[0.0; BLOCK]; 2];
        for (moles, water) in moles.iter_mut().zip(of(&self.water)) {
            *moles = water / WATER;
        }
        of_activity.fill(1.0);
        for (solute, (molar_mass, k1, k2)) in self.solutes.iter().zip(SOLUTES) {
            for (((dilution, pull), moles), mass) in of_activity.iter_mut().zip(&mut pull).zip(&moles).zip(of(solute)) {
                let dissolved = mass * (1.0 / molar_mass);
                let x = dissolved / (dissolved + moles);
                *dilution *= 1.0 - x;
                *pull += x * x * (k1 + k2 * x);
            }
        }
        for (activity, pull) in of_activity.iter_mut().zip(&pull) {
            *activity *= exp(-pull);
        }
    }

    /// The four columns of numbers, block by block so that they stay at hand, with the widest vectors that the processor has.
    fn each_block(&self, see: impl FnMut(Range<usize>, [&[f64]; 4])) {
        pulp::Arch::new().dispatch(Blocks { all: self, see });
    }
}

struct Blocks<'a, F> {
    all: &'a Columns,
    see: F,
}

impl<F: FnMut(Range<usize>, [&[f64]; 4])> pulp::WithSimd for Blocks<'_, F> {
    type Output = ();

    #[inline(always)]
    fn with_simd<S: pulp::Simd>(mut self, _: S) {
        let (all, count) = (self.all, self.all.dose.len());
        let mut made = [[0.0; BLOCK]; 2];
        for first in (0..count).step_by(BLOCK) {
            let rows = first..count.min(first + BLOCK);
            let [support, activity] = made.each_mut().map(|column| &mut column[..rows.len()]);
            all.make(rows.clone(), support, activity);
            (self.see)(rows.clone(), [&all.dose[rows.clone()], support, &all.headroom[rows.clone()], activity]);
        }
    }
}

/// All formulations at once, column by column.
pub fn plain_columns(all: &Columns, margins: &mut [Vec<f64>; 4], broken: &mut [u32]) {
    all.each_block(
        #[inline(always)]
        |rows, columns| {
            let broken = &mut broken[rows.clone()];
            broken.fill(0);
            for ((column, margins), limit) in columns.iter().zip(margins.iter_mut()).zip(LIMITS) {
                for ((number, margin_of), broken) in column.iter().zip(&mut margins[rows.clone()]).zip(&mut *broken) {
                    *margin_of = margin(*number, limit);
                    *broken += u32::from(*margin_of < 0.0);
                }
            }
        },
    );
}

/// `exp` for arguments from -700 to 0, without a branch, so that a loop over it becomes vector code: `2^k` from the bits of a rounded sum,
/// the rest from the series. Right to 1e-12 relative.
#[inline(always)]
fn exp(x: f64) -> f64 {
    const ROUND: f64 = 6_755_399_441_055_744.0; // 1.5 * 2^52: adding it leaves whole numbers in the low bits.
    let rounded = x * std::f64::consts::LOG2_E + ROUND;
    let r = x - (rounded - ROUND) * std::f64::consts::LN_2;
    let mut series = 1.0 / 3_628_800.0;
    for factorial in [362_880.0, 40_320.0, 5_040.0, 720.0, 120.0, 24.0, 6.0, 2.0, 1.0, 1.0] {
        series = series * r + 1.0 / factorial;
    }
    series * f64::from_bits((rounded.to_bits() << 52).wrapping_add(1.0_f64.to_bits()))
}

cordial::rule! {
    /// Too much emulsifier. A rule of the bench.
    DoseTooHigh { id: "dose-too-high", title: "too much emulsifier", domain: Domain::Flow, part: PartKind::Shell }
    limits { DOSE = Limit::at_most("bench-dose.max", Quantity::Lecithin, 1.0, Unit::Percent).breach(); }
}

cordial::rule! {
    /// The filling does not carry the cap. A rule of the bench.
    CapSinks { id: "cap-sinks", title: "the cap sinks", domain: Domain::Closing, part: PartKind::TopLayer }
    limits { SUPPORT = Limit::at_least("bench-support.min", Quantity::CapSupport, 1.0, Unit::One).breach(); }
}

cordial::rule! {
    /// No room for the cap. A rule of the bench.
    NoHeadroom { id: "no-headroom", title: "no room for the cap", domain: Domain::Closing, part: PartKind::Whole }
    limits { HEADROOM = Limit::at_least("bench-headroom.min", Quantity::Headroom, 1.0, Unit::Millimeter).breach(); }
}

cordial::rule! {
    /// Too moist to keep. A rule of the bench.
    TooMoist { id: "too-moist", title: "too moist to keep", domain: Domain::Keeping, part: PartKind::Layer }
    limits {
        // A limit of safety that is only remembered would be a caution, not a failure.
        MOIST = Limit::at_most("bench-activity.max", Quantity::WaterActivity, 0.85, Unit::One)
            .breach()
            .from(Standing::Measured, &cordial::source::WINKLER_2009, "as the rule that ships");
    }
}

/// Few enough that their columns stay where the processor reaches them at once.
const BLOCK: usize = 256;

/// The engine with just those four rules, fed with ready numbers.
pub struct Engine {
    rules: RuleSet,
    bounds: Bounds,
    gauge: Gauge,
    lines: [Line; 4],
    assessment: Assessment,
    findings: Findings,
    tally: Tally,
}

impl Engine {
    pub fn new() -> Self {
        let rules = RuleSet::new([&DoseTooHigh as &'static dyn Rule, &CapSinks, &NoHeadroom, &TooMoist]);
        let bounds = rules.bounds(&Piece::named("bench")).unwrap();
        let mut layer = PartAssessment::NOTHING;
        layer.under_cap = true;
        let assessment = Assessment { layers: vec![layer], ..Assessment::default() };
        let gauge = Gauge::new(&rules, &bounds);
        let lines = [0, 1, 2, 3].map(|place| gauge.line(place).unwrap());
        Self { rules, bounds, gauge, lines, assessment, findings: Findings::default(), tally: Tally::default() }
    }

    fn put(&mut self, [dose, support, headroom, activity]: Numbers) {
        self.assessment.shell.put(Quantity::Lecithin, Assessed::declared(dose));
        self.assessment.whole.put(Quantity::Headroom, Assessed::declared(headroom));
        if let Some(layer) = self.assessment.layers.first_mut() {
            layer.put(Quantity::CapSupport, Assessed::declared(support));
            layer.put(Quantity::WaterActivity, Assessed::declared(activity));
        }
    }

    /// Margins and verdicts of all formulations, each limit down its column; how many are broken in all.
    pub fn columns(&self, all: &Columns, margins: &mut [Vec<f64>; 4], verdicts: &mut [Vec<Verdict>; 4]) -> u32 {
        let mut broken = 0;
        all.each_block(
            #[inline(always)]
            |rows, columns| {
                for (((line, column), margins), verdicts) in self.lines.iter().zip(columns).zip(&mut *margins).zip(&mut *verdicts) {
                    let verdicts = &mut verdicts[rows.clone()];
                    line.hold(column, &mut margins[rows.clone()], verdicts);
                    broken += verdicts.iter().map(|verdict| u32::from(*verdict == Verdict::Fail)).sum::<u32>();
                }
            },
        );
        broken
    }

    /// Margins and verdicts of four numbers; how many limits are broken.
    pub fn hold(&self, numbers: Numbers, margins: &mut [f64; 4]) -> u32 {
        let mut broken = 0;
        for ((line, number), margin) in self.lines.iter().zip(numbers).zip(margins) {
            let mark = line.mark(number);
            *margin = mark.margin;
            broken += u32::from(mark.verdict == Verdict::Fail);
        }
        broken
    }

    /// The same by way of an assessment, where each number could have a band, or lack.
    pub fn gauge(&mut self, numbers: Numbers, margins: &mut [f64; 4]) -> u32 {
        self.put(numbers);
        self.gauge.judge(&self.assessment, &mut self.tally);
        let mut broken = 0;
        for (margin, mark) in margins.iter_mut().zip(self.tally.marks()) {
            let Some(mark) = mark else { continue };
            *margin = mark.margin;
            broken += u32::from(mark.verdict == Verdict::Fail);
        }
        broken
    }

    /// The same with a whole reading each, as a report wants them.
    pub fn judge(&mut self, numbers: Numbers) -> u32 {
        self.put(numbers);
        self.rules.judge(&self.assessment, &self.bounds, &mut self.findings);
        self.findings.readings.iter().map(|reading| u32::from(reading.verdict == Verdict::Fail)).sum()
    }
}
