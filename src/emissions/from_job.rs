//! The grid that the job's house draws from, every default noted.
//!
//! Start at [`grid`].

use super::grid::{COUNTRY, Grid, GridRate, regions};
use crate::job::Job;
use crate::problem::{Problem, Problems};
use crate::sources::{Assumptions, Source};

/// Share lost on the way where the job does not say.
pub const DEFAULT_LOSS: f64 = 0.05;

/// Builds the grid.
///
/// # Errors
/// A region that does not exist, or a region and a figure of the job's own.
pub fn grid(job: &Job, assumptions: &mut Assumptions) -> Result<Grid, Problems> {
    let site = &job.site;
    let loss = assumptions.or_default(
        site.grid_loss.as_deref().copied(),
        "site.grid_loss",
        DEFAULT_LOSS,
        "0.05",
        || {
            Source::FromMemory(
                "eGRID's loss between plants and houses has been 4.5 to 5.3 % in its last editions".into(),
            )
        },
    );
    if let Some(own) = &site.grid_co2e {
        if let Some(region) = &site.grid {
            let what = "grid and grid_co2e are both given; only one of them can hold";
            let problem = job.problem(&region.span, "site.grid", what);
            return Err(vec![problem.help("take grid or grid_co2e out")]);
        }
        return Ok(Grid { region: None, rate: GridRate { co2_kg: None, co2e_kg: own.value }, loss });
    }
    let regions = regions().map_err(|problem| vec![problem])?;
    let asked = assumptions.or_default(
        site.grid.as_ref().map(|grid| grid.value.clone()),
        "site.grid",
        COUNTRY.to_owned(),
        COUNTRY,
        || {
            Source::Published(
                "EPA eGRID2022: the average of the United States; name your region for its own".into(),
            )
        },
    );
    let found = regions.iter().find(|region| region.id == asked);
    let found = found.ok_or_else(|| {
        let ids: Vec<_> = regions.iter().map(|region| region.id.as_str()).collect();
        let what = format!("there is no grid region '{asked}'");
        let problem = match &site.grid {
            Some(grid) => job.problem(&grid.span, "site.grid", what),
            None => Problem::new(what),
        };
        vec![
            problem
                .allowed(ids.join(", "))
                .help("Name one of eGRID's subregions, or give grid_co2e (kg/kWh)"),
        ]
    })?;
    Ok(Grid { region: Some((found.id.clone(), found.name.clone())), rate: found.rate, loss })
}
