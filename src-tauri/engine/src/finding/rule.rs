//! Every rule and every remedy, gathered from the subjects.

use serde::{Serialize, Serializer};

use super::{
    buried, document, ground, guys, lights, mast, north, overhead, points, raising, wind, workshop, yard,
};

macro_rules! gathered {
    ($($(#[$of:meta])* $variant:ident($rule:path, $remedy:path);)*) => {
        /// By which rule something was noticed, with what its sentence needs to know.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Rule {
            $($(#[$of])* $variant($rule),)*
        }

        /// What would put it right, with what its sentence needs to know.
        #[derive(Debug, Clone, PartialEq, Serialize)]
        #[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
        #[serde(rename_all = "snake_case", untagged)]
        pub enum Remedy {
            $($(#[$of])* $variant($remedy),)*
        }

        impl Rule {
            /// The stable short name, such as `guy_near_building`: what stands in JSON and what a test asks for.
            pub fn name(&self) -> &'static str {
                match self {
                    $(Rule::$variant(rule) => rule.name(),)*
                }
            }
        }

        $(
            impl From<$rule> for Rule {
                fn from(rule: $rule) -> Self {
                    Self::$variant(rule)
                }
            }

            impl From<$remedy> for Remedy {
                fn from(remedy: $remedy) -> Self {
                    Self::$variant(remedy)
                }
            }
        )*
    };
}

gathered! {
    Document(document::DocumentRule, document::DocumentRemedy);
    Ground(ground::GroundRule, ground::GroundRemedy);
    /// Points, readings between them, and what really stands.
    Points(points::PointRule, points::PointRemedy);
    /// North, the compass and the phone's zero error.
    North(north::NorthRule, north::NorthRemedy);
    Guys(guys::GuyRule, guys::GuyRemedy);
    Mast(mast::MastRule, mast::MastRemedy);
    Yard(yard::YardRule, yard::YardRemedy);
    Buried(buried::BuriedRule, buried::BuriedRemedy);
    Overhead(overhead::OverheadRule, overhead::OverheadRemedy);
    Wind(wind::WindRule, wind::WindRemedy);
    /// Turning the mast up and laying it down.
    Raising(raising::RaisingRule, raising::RaisingRemedy);
    /// What is cut, turned, drilled and lifted.
    Workshop(workshop::WorkshopRule, workshop::WorkshopRemedy);
    /// The lights' current.
    Lights(lights::LightsRule, lights::LightsRemedy);
}

impl Serialize for Rule {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl PartialEq<str> for Rule {
    fn eq(&self, name: &str) -> bool {
        self.name() == name
    }
}

impl PartialEq<&str> for Rule {
    fn eq(&self, name: &&str) -> bool {
        self.name() == *name
    }
}
