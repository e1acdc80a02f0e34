//! JSON pointers (RFC 6901) into the job, spelt by the types: a field that is not there does not compile.

/// A place of the job as its JSON pointer: a `&'static str`, or a `String` where the path has an index.
///
/// A path is fields and `[index]`; `?` steps into what may be missing, `as Enum::Variant` into one of several
/// alternatives. `in base, Type: path` goes on from the pointer of a `Type`, `in base, Enum::Variant.field` from that of
/// an alternative.
///
/// # Examples
/// ```
/// use mastwright_engine::job::{PointFix, Mark, Shape};
/// use mastwright_engine::pointer;
///
/// assert_eq!(pointer!(yard.boundary?.outline), "/yard/boundary/outline");
/// let oak = 2;
/// let crown = pointer!(yard.obstacles[oak].shape as Shape::Tree.crown_base_m);
/// assert_eq!(crown, "/yard/obstacles/2/shape/crown_base_m");
/// let mark = pointer!(yard.marks[1]);
/// assert_eq!(pointer!(in mark, Mark: at), "/yard/marks/1/at");
/// assert_eq!(pointer!(in pointer!(in mark, Mark: at), PointFix::TwoTapes.tape_a_m), "/yard/marks/1/at/tape_a_m");
/// ```
/// A name mistyped, or a field of another type, is no pointer:
/// ```compile_fail
/// mastwright_engine::pointer!(yard.obstacle[0].name);
/// ```
/// ```compile_fail
/// mastwright_engine::pointer!(rig.guy_levels[0].shape);
/// ```
/// ```compile_fail
/// # use mastwright_engine::job::PointFix;
/// mastwright_engine::pointer!(in "/placement/mast", PointFix::BearingTape.tape);
/// ```
#[macro_export]
macro_rules! pointer {
    (in $base:expr, $enum:ident::$variant:ident.$($path:tt)+) => {
        $crate::pointer!(in $base, $enum: as $enum::$variant.$($path)+)
    };
    (in $base:expr, $of:ty: $($path:tt)+) => {{
        // Never run: it only has to compile.
        let _ = |whole: &$of| -> Option<()> {
            $crate::pointer!(@check (whole) . $($path)+);
            Some(())
        };
        $crate::pointer!(@write ["{}"] [$base] . $($path)+)
    }};
    // Of a name alone, one rule for the first step: an alternative or a field.
    (@check ($place:expr) . as $($rest:tt)+) => { $crate::pointer!(@check ($place) as $($rest)+) };
    (@check ($place:expr)) => {{ let _ = &$place; }};
    (@check ($place:expr) . $field:ident $($rest:tt)*) => { $crate::pointer!(@check ($place.$field) $($rest)*) };
    (@check ($place:expr) [$index:expr] $($rest:tt)*) => { $crate::pointer!(@check ($place[$index]) $($rest)*) };
    (@check ($place:expr) ? $($rest:tt)*) => { $crate::pointer!(@check ($place.as_ref()?) $($rest)*) };
    (@check ($place:expr) as $enum:ident::$variant:ident.$field:ident $($rest:tt)*) => {
        if let $enum::$variant { $field: part, .. } = &$place {
            $crate::pointer!(@check (part) $($rest)*)
        }
    };
    (@write [$($text:expr),*] []) => { concat!($($text),*) };
    (@write [$($text:expr),*] [$($value:expr),+]) => { format!(concat!($($text),*), $($value),+) };
    (@write $text:tt $values:tt . as $($rest:tt)+) => { $crate::pointer!(@write $text $values as $($rest)+) };
    (@write [$($text:expr),*] $values:tt . $field:ident $($rest:tt)*) => {
        $crate::pointer!(@write [$($text,)* "/", stringify!($field)] $values $($rest)*)
    };
    (@write [$($text:expr),*] [$($value:expr),*] [$index:expr] $($rest:tt)*) => {
        $crate::pointer!(@write [$($text,)* "/{}"] [$($value,)* $index] $($rest)*)
    };
    (@write $text:tt $values:tt ? $($rest:tt)*) => { $crate::pointer!(@write $text $values $($rest)*) };
    (@write [$($text:expr),*] $values:tt as $enum:ident::$variant:ident.$field:ident $($rest:tt)*) => {
        $crate::pointer!(@write [$($text,)* "/", stringify!($field)] $values $($rest)*)
    };
    ($first:ident $($rest:tt)*) => {{
        let _ = |whole: &$crate::job::Job| -> Option<()> {
            $crate::pointer!(@check (whole) . $first $($rest)*);
            Some(())
        };
        $crate::pointer!(@write [] [] . $first $($rest)*)
    }};
}

/// The name of a field of an alternative, such as `field!(PointFix::TwoTapes.tape_a_m)`, or of a group of fields,
/// `field!(Rope: stretch_percent)`.
#[macro_export]
macro_rules! field {
    ($enum:ident::$variant:ident.$field:ident) => {{
        let _ = |whole: &$enum| {
            if let $enum::$variant { $field: part, .. } = whole {
                let _ = part;
            }
        };
        stringify!($field)
    }};
    ($of:ident: $field:ident) => {{
        let _ = |whole: &$of| {
            let _ = &whole.$field;
        };
        stringify!($field)
    }};
}

#[cfg(test)]
mod tests {
    use crate::job::{AnchorLayout, GuyLevel, LineSupport, OverheadLine, PointFix, Shape};

    #[test]
    fn a_pointer_is_spelt_as_its_path() {
        const PLACE: &str = pointer!(yard.place);
        assert_eq!(PLACE, "/yard/place");
        let (i, j) = (3, 1);
        assert_eq!(pointer!(yard.overhead_lines[i].supports[j].at), "/yard/overhead_lines/3/supports/1/at");
        assert_eq!(
            pointer!(rig.guy_levels[i].anchor_layout as AnchorLayout::Free.anchors[j]),
            "/rig/guy_levels/3/anchor_layout/anchors/1"
        );
        assert_eq!(pointer!(as_built?.anchors[i + 1].at), "/as_built/anchors/4/at");
        assert_eq!(pointer!(in "/x", OverheadLine: supports[j]), "/x/supports/1");
        assert_eq!(pointer!(in "/x", LineSupport: at as PointFix::Offset.along_m), "/x/at/along_m");
        assert_eq!(pointer!(in String::from("/x"), Shape::Path.line[2]), "/x/line/2");
        assert_eq!(
            [field!(PointFix::Offset.off_m), field!(GuyLevel: attach_height_m)],
            ["off_m", "attach_height_m"]
        );
    }
}
