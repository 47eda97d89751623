//! A plan with nothing on it but what a test wants to say.

/// What a test adds to a lot of 24 m by 28 m with a pool of 4 m by 8 m, 10 m from three lines; all drawn exactly.
#[derive(Default)]
pub struct Plot {
    lot: String,
    east: Option<String>,
    pool: String,
    things: String,
    more: String,
}

impl Plot {
    /// With a fact of the pool.
    pub fn pool(fact: &str, value: &str) -> Self {
        Self {
            pool: format!("  {fact}: {value}\n"),
            ..Self::default()
        }
    }

    /// With another fact of the pool.
    pub fn and_pool(mut self, fact: &str, value: &str) -> Self {
        self.pool.push_str(&format!("  {fact}: {value}\n"));
        self
    }

    /// With the pool so many metres from the western line.
    pub fn and_east(mut self, metres: &str) -> Self {
        self.east = Some(metres.to_owned());
        self
    }

    /// With something said of the lot.
    pub fn lot(key: &str, value: &str) -> Self {
        Self {
            lot: format!("  {key}: {value}\n"),
            ..Self::default()
        }
    }

    /// With one more thing.
    pub fn thing(thing: &str) -> Self {
        Self {
            things: format!("  - {thing}\n"),
            ..Self::default()
        }
    }

    /// With a fence of which this is stated.
    pub fn fence(fact: &str, value: &str) -> Self {
        Self::thing(&format!(
            "{{kind: barrier-stretch, id: f, {fact}: {value}}}"
        ))
    }

    /// With something else at the top of the file.
    pub fn top(more: &str) -> Self {
        Self {
            more: format!("{more}\n"),
            ..Self::default()
        }
    }

    /// The plan as text.
    pub fn text(&self) -> String {
        let Self {
            lot,
            pool,
            things,
            more,
            ..
        } = self;
        let east = self.east.as_deref().unwrap_or("10");
        format!(
            "plan: plot
title: A plot
unit: m
sources: [{{id: exact, by: survey, accuracy: 0 m, shift: 0 m}}]
lot:
  source: exact
  level-ground: yes
{lot}  corners: {{a: [0, 0], b: [24, 0], c: [24, 28], d: [0, 28]}}
  sides:
    - {{id: a-b, from: a, to: b, beyond: neighbour-lot}}
    - {{id: b-c, from: b, to: c, beyond: neighbour-lot}}
    - {{id: c-d, from: c, to: d, beyond: neighbour-lot}}
    - {{id: d-a, from: d, to: a, beyond: neighbour-lot}}
pool:
  id: pool
  source: exact
  water: {{rectangle: {{at: [{east}, 10], length: 4 m, width: 8 m}}}}
{pool}{more}things:
{things}inventory:
  barrier-stretch: all-shown
  deck: all-shown
  gate: all-shown
  overhead-line: all-shown
  railway: all-shown
  tree: all-shown
"
        )
    }
}
