//! What options cost over the years, as JSON.
//!
//! Start at `document`.

use crate::comparison::{Comparison, OptionLife, Worth};
use crate::economics::Payback;
use schemars::JsonSchema;
use serde::Serialize;

/// The terms, and what they are set against.
#[derive(Serialize, JsonSchema)]
pub(super) struct LifeCyclesDocument<'a> {
    years: usize,
    real_discount_rate: f64,
    inflation: f64,
    incentives_counted: bool,
    base: Option<&'a str>,
    escalation: Vec<EscalationDocument<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct EscalationDocument<'a> {
    fuel: &'a str,
    above_inflation: f64,
}

/// One option over the years.
#[derive(Serialize, JsonSchema)]
pub(super) struct OptionLifeDocument<'a> {
    parts: Vec<PartDocument<'a>>,
    incentives: Vec<IncentiveDocument<'a>>,
    installed_cost: f64,
    incentives_amount: f64,
    loan_a_month: f64,
    bills_and_upkeep_a_month: f64,
    with_incentives: WorthDocument,
    without_incentives: WorthDocument,
}

#[derive(Serialize, JsonSchema)]
struct PartDocument<'a> {
    what: &'a str,
    amount: f64,
    lasts_years: Option<usize>,
    renewal: Option<f64>,
    source: Option<&'a str>,
}

#[derive(Serialize, JsonSchema)]
struct IncentiveDocument<'a> {
    what: &'a str,
    amount: f64,
    date: &'a str,
    source: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WorthDocument {
    life_cycle_cost: f64,
    paid_at_once: f64,
    loan: f64,
    bills: f64,
    upkeep: f64,
    parts_anew: f64,
    left_in_parts: f64,
    spent_by_year: Vec<f64>,
    against_base: Option<AgainstDocument>,
}

#[derive(Serialize, JsonSchema)]
struct AgainstDocument {
    net_savings: f64,
    savings_to_investment_ratio: Option<f64>,
    adjusted_internal_rate_of_return: Option<f64>,
    /// 0 where it costs no more from the first, null where it never pays back within the years.
    simple_payback_years: Option<f64>,
    /// 0 where it costs no more from the first, null where it never pays back within the years.
    discounted_payback_years: Option<f64>,
}

/// The terms of a comparison; nothing where it has no costs of installing.
pub(super) fn document(c: &Comparison) -> Option<LifeCyclesDocument<'_>> {
    let economics = &c.life_cycles.as_ref()?.economics;
    let priced = c.fuels.iter().filter(|(id, _)| c.prices.of(*id).is_some());
    Some(LifeCyclesDocument {
        years: economics.terms.years,
        real_discount_rate: economics.terms.discount_rate,
        inflation: economics.terms.inflation,
        incentives_counted: economics.count_incentives,
        base: c.options.get(economics.base).map(|option| option.design.name.as_str()),
        escalation: priced
            .map(|(id, fuel)| EscalationDocument {
                fuel: &fuel.id,
                above_inflation: economics.escalation_of(id),
            })
            .collect(),
    })
}

/// The option at that place over the years; nothing where it has no costs of installing.
pub(super) fn option(c: &Comparison, place: usize) -> Option<OptionLifeDocument<'_>> {
    let lives = c.life_cycles.as_ref()?;
    let life: &OptionLife = lives.options.get(place)?.as_ref()?;
    let project = lives.project(place)?;
    let parts = project.parts.iter().map(|part| PartDocument {
        what: &part.what,
        amount: part.amount,
        lasts_years: part.replacement.map(|r| r.life_years),
        renewal: part.replacement.map(|r| r.cost),
        source: part.source.as_deref(),
    });
    let incentives = project.incentives.iter().map(|given| IncentiveDocument {
        what: &given.what,
        amount: given.amount,
        date: &given.date,
        source: &given.source,
    });
    Some(OptionLifeDocument {
        parts: parts.collect(),
        incentives: incentives.collect(),
        installed_cost: project.installed(),
        incentives_amount: project.given(),
        loan_a_month: life.loan_a_month,
        bills_and_upkeep_a_month: life.running_a_month,
        with_incentives: worth(&life.with_incentives),
        without_incentives: worth(&life.without_incentives),
    })
}

fn worth(worth: &Worth) -> WorthDocument {
    let life = &worth.life;
    WorthDocument {
        life_cycle_cost: life.total(),
        paid_at_once: life.paid_today,
        loan: life.loan,
        bills: life.bills,
        upkeep: life.upkeep,
        parts_anew: life.replacements,
        left_in_parts: life.residual,
        spent_by_year: life.spent_by.clone(),
        against_base: worth.against.map(|against| AgainstDocument {
            net_savings: against.net_savings,
            savings_to_investment_ratio: against.savings_to_investment,
            adjusted_internal_rate_of_return: against.adjusted_return,
            simple_payback_years: years(against.simple_payback),
            discounted_payback_years: years(against.discounted_payback),
        }),
    }
}

fn years(payback: Payback) -> Option<f64> {
    match payback {
        Payback::AtOnce => Some(0.0),
        Payback::Years(years) => Some(years),
        Payback::Never | Payback::TakenBack => None,
    }
}
