//! The job's `[economics]` and the costs of its options into terms and whole jobs, all problems together.
//!
//! Start at [`economics`].

use super::life_cycle::Replacement;
use super::loan::Loan;
use super::project::{Incentive, Part, Project};
use super::terms::Terms;
use crate::fuel::{FuelId, Fuels};
use crate::job::path::join;
use crate::job::{CostSection, Job, LoanSection, OptionCosts, OptionSection};
use crate::problem::{Problem, Problems};
use crate::sources::{Assumptions, Source};
use crate::units::Quantity;

/// Years that are looked at where the job does not say.
const YEARS: usize = 20;
/// Real discount rate where the job does not say.
const DISCOUNT_RATE: f64 = 0.03;
/// Inflation where the job does not say and has a loan.
const INFLATION: f64 = 0.025;

/// On which terms options are set against each other, and what each costs to install.
#[derive(Debug, Clone, PartialEq)]
pub struct Economics {
    /// Years, discounting, inflation.
    pub terms: Terms,
    /// How much each fuel's price rises above inflation, share a year, by the fuel's place.
    pub escalation: Vec<f64>,
    /// Whether incentives are counted in the verdict.
    pub count_incentives: bool,
    /// The place of the option that the others are set against.
    pub base: usize,
    /// The whole job of each option, in the job's order; nothing where the job gives it no cost.
    pub projects: Vec<Option<Project>>,
}

impl Economics {
    /// How much the price of a fuel rises above inflation, share a year.
    pub fn escalation_of(&self, fuel: FuelId) -> f64 {
        self.escalation.get(fuel.index()).copied().unwrap_or_default()
    }
}

/// Builds the economics; nothing where no option has a cost.
///
/// # Errors
/// Terms without any cost to use them on, and a base without costs of its own.
pub fn economics(job: &Job, fuels: &Fuels, list: &mut Assumptions) -> Result<Option<Economics>, Problems> {
    if job.options.iter().all(|option| option.costs.cost.is_empty()) {
        return unused(job).map_or(Ok(None), |problem| Err(vec![problem]));
    }
    let projects: Vec<_> =
        job.options.iter().map(|option| project(option, &job.job.currency, list)).collect();
    let base = base(job, &projects, list).map_err(|problem| vec![problem])?;
    let section = &job.economics;
    let has_loan = projects.iter().flatten().any(|project| project.loan.is_some());
    Ok(Some(Economics {
        terms: terms(job, has_loan, list),
        escalation: escalation(job, fuels, list),
        count_incentives: section.count_incentives.as_ref().is_none_or(|typed| typed.value),
        base,
        projects,
    }))
}

/// What is typed of incentives, loans, upkeep or base says nothing where no option has a cost.
fn unused(job: &Job) -> Option<Problem> {
    let typed = |costs: &OptionCosts| {
        let incentive = costs.incentive.first().map(|given| ("incentive", given.amount.span.clone()));
        let loan = costs.loan.as_ref().map(|loan| ("loan", loan.amount.span.clone()));
        incentive.or(loan).or(costs.upkeep.as_ref().map(|upkeep| ("upkeep", upkeep.span.clone())))
    };
    let found = job.options.iter().find_map(|option| Some((option, typed(&option.costs)?)));
    let (key, span) = match (found, &job.economics.base) {
        (Some((option, (key, span))), _) => (join(&join("option", &option.name), key), span),
        (None, Some(base)) => ("economics.base".to_owned(), base.span.clone()),
        (None, None) => return None,
    };
    let problem = job.problem(&span, key, "no option says what it costs to install, so this has no use");
    Some(problem.help("List each option's whole job under [[option.cost]], or take this out"))
}

fn terms(job: &Job, has_loan: bool, list: &mut Assumptions) -> Terms {
    let section = &job.economics;
    let years = section.years.as_ref().and_then(|typed| usize::try_from(typed.value).ok());
    let years = list.or_default(years, "economics.years", YEARS, YEARS.to_string(), || {
        Source::CommonPractice("about as long as a furnace lasts".into())
    });
    let rate = section.discount_rate.as_ref().map(|typed| typed.value);
    let discount_rate =
        list.or_default(rate, "economics.discount_rate", DISCOUNT_RATE, DISCOUNT_RATE.to_string(), || {
            Source::FromMemory("the real rate of federal energy analyses, 10 CFR 436 Subpart A".into())
        });
    let inflation = section.inflation.as_ref().map(|typed| typed.value);
    if inflation.is_none() && has_loan {
        let source = Source::CommonPractice("what a loan's payments lose in worth each year".into());
        list.note("economics.inflation", INFLATION.to_string(), source);
    }
    Terms { years, discount_rate, inflation: inflation.unwrap_or(INFLATION) }
}

/// By the fuel's place; a fuel that is not named keeps up with inflation.
fn escalation(job: &Job, fuels: &Fuels, list: &mut Assumptions) -> Vec<f64> {
    let mut escalation = vec![0.0; fuels.count()];
    for (id, fuel) in fuels.iter().filter(|(_, fuel)| job.prices.fuel(&fuel.id).is_some()) {
        let typed = job.economics.escalation.iter().find(|(name, _)| name.value == fuel.id);
        if let (Some((_, rate)), Some(slot)) = (typed, escalation.get_mut(id.index())) {
            *slot = rate.value;
        } else {
            let source = Source::CommonPractice("prices are taken to keep up with inflation".into());
            list.note(join("economics.escalation", &fuel.id), "0", source);
        }
    }
    escalation
}

/// The option that the others are set against: the job's, else the one that costs least to install.
fn base(job: &Job, projects: &[Option<Project>], list: &mut Assumptions) -> Result<usize, Problem> {
    let priced = || projects.iter().enumerate().filter_map(|(i, p)| Some((i, p.as_ref()?.installed())));
    if let Some(named) = &job.economics.base {
        let place = job.options.iter().position(|option| option.name.value == named.value);
        return place.filter(|i| priced().any(|(priced, _)| priced == *i)).ok_or_else(|| {
            let what = format!("'{}' does not say what it costs to install", named.value);
            let problem = job.problem(&named.span, "economics.base", what);
            problem.help("List its whole job under [[option.cost]], or name another option")
        });
    }
    let least = priced().min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0, |(i, _)| i);
    let name = job.options.get(least).map_or("", |option| &option.name.value);
    let source = Source::FromMemory("NIST Handbook 135: what costs least to install".into());
    list.note("economics.base", name, source);
    Ok(least)
}

/// The whole job of an option; nothing where it gives no cost.
fn project(option: &OptionSection, currency: &str, list: &mut Assumptions) -> Option<Project> {
    let costs = &option.costs;
    let key = join("option", &option.name);
    if costs.cost.is_empty() {
        return None;
    }
    if costs.upkeep.is_none() {
        let source = Source::CommonPractice("the job gives none, so none is counted".into());
        list.note(join(&key, "upkeep"), format!("0 {currency}/year"), source);
    }
    let incentives = costs.incentive.iter().map(|given| Incentive {
        what: given.what.value.clone(),
        amount: given.amount.value,
        date: given.date.value.clone(),
        source: given.source.value.clone(),
    });
    Some(Project {
        parts: costs.cost.iter().map(|cost| part(cost, &join(&key, "cost"), list)).collect(),
        incentives: incentives.collect(),
        loan: costs.loan.as_ref().and_then(loan),
        upkeep: costs.upkeep.as_ref().map_or(0.0, |upkeep| match upkeep.per.as_str() {
            "month" => 12.0 * upkeep.amount,
            _ => upkeep.amount,
        }),
    })
}

fn part(cost: &CostSection, path: &str, list: &mut Assumptions) -> Part {
    let key = |last: &str| join(path, last);
    if cost.lasts.is_none() {
        let source = Source::CommonPractice("what the job gives no life is never bought again".into());
        list.note(key("lasts"), "for ever", source);
    }
    if cost.lasts.is_some() && cost.renewal.is_none() {
        list.note(
            key("renewal"),
            "amount",
            Source::CommonPractice("a new one costs what the first did".into()),
        );
    }
    let replacement = cost.lasts.as_ref().map(|lasts| Replacement {
        life_years: lasts.base() as usize,
        cost: cost.renewal.as_ref().map_or(cost.amount.value, |typed| typed.value),
    });
    Part {
        what: cost.what.value.clone(),
        amount: cost.amount.value,
        replacement,
        source: cost.source.as_ref().map(|typed| typed.value.clone()),
    }
}

fn loan(section: &LoanSection) -> Option<Loan> {
    let months = usize::try_from(section.months.value).ok()?;
    Some(Loan { amount: section.amount.value, yearly_rate: section.rate.value, months })
}
