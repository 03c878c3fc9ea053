//! Guards: what is wrong with a figure that could be read and solved.
//! Says each fault at the author's word with one next step; it changes nothing.

mod balance;
mod blocks;
mod body;
mod forearm;
mod limits;
mod rest;

use super::node::{PoseCode, PoseNode, PoseProblem};
use super::solve::{Person, SolvedFigure, figure};
use super::words::number::SettingValue;

/// Everything wrong with a solved figure, in the order of the key poses.
pub fn guard(figure: &SolvedFigure) -> Vec<PoseProblem> {
    let mut found = Vec::new();
    for index in 0..figure.poses.len() {
        limits::stated_angles(figure, index, &mut found);
        body::floor(figure, index, &mut found);
        blocks::kit(figure, index, &mut found);
        balance::balance(figure, index, &mut found);
        rest::joints(figure, index, &mut found);
        forearm::forearms(figure, index, &mut found);
    }
    body::movement(figure, &mut found);
    found
}

/// Read, solve and guard in one go: the figure, and all that is wrong with it.
pub fn checked(
    node: &PoseNode,
    at: usize,
    settings: &[SettingValue],
    person: &Person,
) -> (Option<SolvedFigure>, Vec<PoseProblem>) {
    let (solved, mut problems) = figure(node, at, settings, person);
    let Some(solved) = solved else { return (None, problems) };
    let found = guard(&solved);
    // An angle beyond the joint is also an angle not met: the first says it better.
    let better = |p: &PoseProblem| {
        matches!(p.code, PoseCode::AngleNotMet)
            && found.iter().any(|f| {
                f.at == p.at && matches!(f.code, PoseCode::JointLimit | PoseCode::Mirrored)
            })
    };
    problems.retain(|p| !better(p));
    problems.extend(found);
    (Some(solved), problems)
}
