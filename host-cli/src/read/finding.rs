//! What an answer means for a person: pipes by what they buy, what they carry, what could hurt someone.

use springline_core::Length;
use springline_core::identify::{Answer, Outcome};
use springline_core::image::{Carries, Image, Material, Row};

use super::contradiction::Contradiction;
use super::next::Next;
use super::purchase::Purchase;
use super::query::Asked;

/// A family's size, all ODs of it that buy the same together.
pub(crate) struct Pipe<'a> {
    pub(crate) family: &'a str,
    pub(crate) name: &'a str,
    pub(crate) label: &'a str,
    pub(crate) nominal: &'a str,
    /// Each OD of it that may be meant, the likeliest first.
    pub(crate) rows: Vec<Row>,
    /// Their indices.
    pub(crate) indices: Vec<u16>,
    /// What is bought for it.
    purchase: u16,
    pub(crate) share: f64,
    pub(crate) material: Option<Material>,
    pub(crate) carries: Option<Carries>,
}

impl Pipe<'_> {
    /// `14 in`, `DN150`, `160mm`.
    pub(crate) fn size(&self) -> String {
        size(self.nominal)
    }

    /// The OD that is likeliest meant, in counts.
    pub(crate) fn od(&self) -> i64 {
        self.rows.first().map_or(0, |row| i64::from(row.od))
    }
}

/// A nominal size with its unit: `14 in`, `DN150`, `160mm`.
pub(crate) fn size(nominal: &str) -> String {
    if nominal.ends_with("mm") || nominal.starts_with("DN") {
        nominal.to_owned()
    } else {
        format!("{nominal} in")
    }
}

/// Pipes that buy the same parts for the job, the likeliest first.
pub(crate) struct Group {
    /// Indices into [`Finding::pipes`].
    pipes: Vec<usize>,
    pub(crate) share: f64,
}

/// An answer with its meaning.
pub(crate) struct Finding<'a> {
    pub(crate) image: &'a Image<'a>,
    pub(crate) asked: &'a Asked,
    pub(crate) answer: &'a Answer,
    /// The likeliest first.
    pub(crate) pipes: Vec<Pipe<'a>>,
    /// By purchase, the likeliest first.
    groups: Vec<Group>,
    /// Somebody could be hurt: stop, and ask.
    pub(crate) stop: bool,
    pub(crate) cautions: Vec<String>,
    /// What it means at the counter.
    pub(crate) purchase: Purchase,
    /// The check to make next, if one helps.
    pub(crate) next: Option<Next>,
    /// A clue that the rest speaks against.
    pub(crate) contradiction: Option<Contradiction>,
}

/// A Q32 share of the settings as a fraction.
pub(crate) fn q32(share: u32) -> f64 {
    f64::from(share) / 4_294_967_296.0
}

/// A Q30 weight as a fraction.
pub(crate) fn fraction(q30: u32) -> f64 {
    f64::from(q30) / 1_073_741_824.0
}

impl<'a> Finding<'a> {
    pub(crate) fn new(image: &'a Image<'a>, asked: &'a Asked, answer: &'a Answer) -> Self {
        let mut pipes: Vec<Pipe<'a>> = Vec::new();
        for candidate in answer.candidates() {
            let row = image.row(candidate.row);
            let family = image.family(row.family);
            let key = image.packed_text(family.key);
            let nominal = image.size(row.size);
            let share = fraction(candidate.weight.q30());
            let purchase = image.purchase(asked.query.job, candidate.row);
            let held = pipes.iter_mut().find(|pipe| {
                pipe.family == key && pipe.nominal == nominal && pipe.purchase == purchase
            });
            if let Some(pipe) = held {
                pipe.share += share;
                pipe.rows.push(row);
                pipe.indices.push(candidate.row);
                continue;
            }
            let system = image.system(row.system);
            pipes.push(Pipe {
                family: key,
                name: image.packed_text(family.name),
                label: image.packed_text(system.label),
                nominal,
                rows: vec![row],
                indices: vec![candidate.row],
                purchase,
                share,
                material: Material::from_code(family.material),
                carries: Carries::from_code(family.carries),
            });
        }
        pipes.sort_by(|a, b| b.share.total_cmp(&a.share));
        let mut finding = Self {
            image,
            asked,
            answer,
            groups: groups(&pipes),
            pipes,
            stop: false,
            cautions: Vec::new(),
            purchase: Purchase::default(),
            next: None,
            contradiction: None,
        };
        finding.warn();
        finding
    }

    /// Nothing in the tables explains the reading.
    pub(crate) fn is_outside(&self) -> bool {
        self.answer.outcome == Outcome::Outside
    }

    /// One purchase is named, surely or likely.
    pub(crate) fn is_single(&self) -> bool {
        self.answer.outcome == Outcome::Settled || self.answer.likely && !self.is_outside()
    }

    /// What is left of belief outside the tables.
    pub(crate) fn outside(&self) -> f64 {
        fraction(self.answer.outside.q30())
    }

    /// The purchases that count as one of several answers; the first of all where none does.
    pub(crate) fn counted(&self) -> impl Iterator<Item = &Group> {
        let least = self.counted_from();
        let counts = move |(at, group): &(usize, &Group)| *at == 0 || group.share >= least;
        self.groups
            .iter()
            .enumerate()
            .filter(counts)
            .map(|(_, group)| group)
    }

    /// Every purchase, the likeliest first.
    pub(crate) fn groups(&self) -> impl Iterator<Item = &Group> {
        self.groups.iter()
    }

    /// The pipes of a purchase that are named, the likeliest first: those that count, and the first of all.
    pub(crate) fn named(&self, group: &Group) -> Vec<&Pipe<'a>> {
        let least = self.counted_from();
        let pipes = group.pipes.iter().filter_map(|at| self.pipes.get(*at));
        let named = pipes
            .enumerate()
            .filter(|(at, pipe)| *at == 0 || pipe.share >= least);
        named.map(|(_, pipe)| pipe).collect()
    }

    /// Every pipe of a purchase that is listed.
    pub(crate) fn all_of(&self, group: &Group) -> impl Iterator<Item = &Pipe<'a>> {
        group.pipes.iter().filter_map(|at| self.pipes.get(*at))
    }

    /// The likeliest pipe of the likeliest purchase.
    pub(crate) fn first(&self) -> Option<&Pipe<'a>> {
        self.groups
            .first()
            .and_then(|group| self.pipes.get(*group.pipes.first()?))
    }

    /// The share from which an answer counts.
    pub(crate) fn counted_from(&self) -> f64 {
        q32(self.image.settings().counted)
    }

    /// Whether a reading that sees all round the pipe would part what is left: ODs that count lie farther apart than a
    /// tape's error, and what was read may be squash.
    pub(crate) fn needs_crossing(&self) -> bool {
        if !self.asked.one_sided || self.answer.outcome == Outcome::Settled {
            return false;
        }
        let ods = || {
            self.counted()
                .flat_map(|group| self.named(group))
                .map(Pipe::od)
        };
        match (ods().min(), ods().max()) {
            // Half of one per cent: some four sigma of a diameter tape.
            (Some(least), Some(most)) => most - least > least / 200,
            _ => false,
        }
    }

    /// Whether a pipe gives this reading only when squashed: one diameter of it was read, and that lies beyond its band by
    /// more than a coat and two sigma.
    pub(crate) fn if_squashed(&self, pipe: &Pipe<'_>) -> bool {
        let Some(row) = pipe.rows.first() else {
            return false;
        };
        let settings = self.image.settings();
        let gives = self.asked.query.buried && self.image.family(row.family).law != 0;
        let slack = 2 * i64::from(self.answer.sigma.counts()) + 2 * i64::from(settings.coat_mean);
        let band = i64::from(row.low) - slack..=i64::from(row.high) + slack;
        gives && self.asked.one_sided && !band.contains(&i64::from(self.answer.od.counts()))
    }

    /// The nearest sizes below and above the reading, for one that is in no table.
    pub(crate) fn neighbours(&self) -> [Option<(Row, Length)>; 2] {
        let at = self.answer.od.counts();
        // The commonest of the sizes with the nearest OD stands for them.
        let common =
            |row: &Row| u64::from(row.share) * u64::from(self.image.family(row.family).unknown);
        // A size that nobody meets is no neighbour: one pipe in fifty thousand.
        let met = |row: &Row| common(row) >> 32 > u64::from(u32::MAX / 50_000);
        let rows = || self.image.rows_from(0).filter(met);
        let below = rows()
            .filter(|row| row.od <= at)
            .max_by_key(|row| (row.od, common(row)));
        let above = rows()
            .filter(|row| row.od > at)
            .min_by_key(|row| (row.od, u64::MAX - common(row)));
        [below, above].map(|row| row.map(|row| (row, Length::from_counts((row.od - at).abs()))))
    }
}

/// Pipes by purchase.
fn groups(pipes: &[Pipe<'_>]) -> Vec<Group> {
    let mut groups: Vec<(u16, Group)> = Vec::new();
    for (at, pipe) in pipes.iter().enumerate() {
        if let Some((_, group)) = groups.iter_mut().find(|(held, _)| *held == pipe.purchase) {
            group.pipes.push(at);
            group.share += pipe.share;
        } else {
            let group = Group {
                pipes: vec![at],
                share: pipe.share,
            };
            groups.push((pipe.purchase, group));
        }
    }
    groups.sort_by(|(_, a), (_, b)| b.share.total_cmp(&a.share));
    groups.into_iter().map(|(_, group)| group).collect()
}
