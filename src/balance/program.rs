//! A convex quadratic programme: the door to the solver, Clarabel, an interior-point method.

use clarabel::algebra::CscMatrix;
use clarabel::solver::{DefaultSettings, DefaultSolver, IPSolver, NonnegativeConeT, SolverStatus, ZeroConeT};

/// How closely a programme is solved: shares of the batch and percentage points are of the order of one.
const TOLERANCE: f64 = 1e-11;
/// What is still good enough where rounding lets it come no closer: a hundredth of a milligram in a kilogram.
const GOOD_ENOUGH: f64 = 1e-8;

/// Minimises `sum of squares * x² / 2 + linear * x` within rows.
pub(super) struct Program {
    /// The factor of half of each variable's square.
    pub squares: Vec<f64>,
    /// The factor of each variable.
    pub linear: Vec<f64>,
    /// What must hold.
    pub rows: Vec<Row>,
}

/// A sum that must lie between two ends.
pub(super) struct Row {
    /// Variables with their factors.
    pub terms: Vec<(usize, f64)>,
    /// The lower end; minus infinity if there is none.
    pub least: f64,
    /// The upper end; infinity if there is none.
    pub most: f64,
}

/// What solves a programme.
pub(super) struct Solution {
    /// The variables.
    pub values: Vec<f64>,
    /// For each row, how fast the objective falls as its lower, and as its upper end gives way.
    pub forces: Vec<(f64, f64)>,
}

/// Why there is no solution.
pub(super) enum Unsolved {
    /// The rows contradict each other.
    Infeasible,
    /// The solver gave up.
    GaveUp(SolverStatus),
}

impl Row {
    /// A sum that must have a value.
    pub fn equal(terms: Vec<(usize, f64)>, value: f64) -> Self {
        Self { terms, least: value, most: value }
    }

    fn is_equation(&self) -> bool {
        self.least >= self.most
    }
}

impl Program {
    /// # Errors
    /// [`Unsolved`] where the rows contradict each other or the solver gives up.
    pub fn solve(&self) -> Result<Solution, Unsolved> {
        // Clarabel wants `A x + s = b` with s zero for equations, which come first, and not negative for the rest.
        let ends = self.rows.iter().enumerate().flat_map(|(at, row)| {
            let upper = (row.most.is_finite() || row.is_equation()).then_some((at, 1.0, row.most));
            let lower = (row.least.is_finite() && !row.is_equation()).then_some((at, -1.0, -row.least));
            [upper, lower].into_iter().flatten()
        });
        let mut ends: Vec<_> = ends.filter_map(|(at, sign, end)| Some((self.rows.get(at)?, at, sign, end))).collect();
        ends.sort_by_key(|(row, ..)| !row.is_equation());
        let equations = ends.iter().filter(|(row, ..)| row.is_equation()).count();
        let (mut at_row, mut at_column, mut factors, mut bounds) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for (number, (row, _, sign, end)) in ends.iter().enumerate() {
            for (column, factor) in &row.terms {
                at_row.push(number);
                at_column.push(*column);
                factors.push(sign * factor);
            }
            bounds.push(*end);
        }
        let size = self.linear.len();
        let matrix = CscMatrix::new_from_triplets(ends.len(), size, at_row, at_column, factors);
        let squares = CscMatrix::new_from_triplets(size, size, (0..size).collect(), (0..size).collect(), self.squares.clone());
        let cones = [ZeroConeT(equations), NonnegativeConeT(ends.len() - equations)];
        let settings = DefaultSettings {
            verbose: false,
            tol_gap_abs: TOLERANCE,
            tol_gap_rel: TOLERANCE,
            tol_feas: TOLERANCE,
            reduced_tol_gap_abs: GOOD_ENOUGH,
            reduced_tol_gap_rel: GOOD_ENOUGH,
            reduced_tol_feas: GOOD_ENOUGH,
            ..DefaultSettings::default()
        };
        let gave_up = |_| Unsolved::GaveUp(SolverStatus::Unsolved);
        let mut solver = DefaultSolver::new(&squares, &self.linear, &matrix, &bounds, &cones, settings).map_err(gave_up)?;
        solver.solve();
        match solver.solution.status {
            SolverStatus::Solved | SolverStatus::AlmostSolved => {}
            SolverStatus::PrimalInfeasible | SolverStatus::AlmostPrimalInfeasible => return Err(Unsolved::Infeasible),
            other => return Err(Unsolved::GaveUp(other)),
        }
        let mut forces = vec![(0.0, 0.0); self.rows.len()];
        for ((_, at, sign, _), force) in ends.iter().zip(&solver.solution.z) {
            if let Some(forces) = forces.get_mut(*at) {
                *(if *sign < 0.0 { &mut forces.0 } else { &mut forces.1 }) = *force;
            }
        }
        Ok(Solution { values: std::mem::take(&mut solver.solution.x), forces })
    }
}
