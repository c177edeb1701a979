//! The names of an operation's values, each declared once.

/// Names the values of an operation: each line gives a constant [`Name`](crate::operations::Name) with its unit, its key and its
/// meaning; `lower` is what is needed at least and `upper` what may be had at most, rounded inward, `new` is any other; behind it may stand how the log
/// holds it, `left(Gauge::Inside)`, and which size of the part it is, as found or as the work leaves it, `found(PartSize::Faces)`. All of
/// them together are `VALUES`, in the order of the list, or bear the name that stands before the comma.
#[macro_export]
macro_rules! names {
    ($vis:vis, $($rest:tt)+) => { $crate::names! { $vis VALUES, $($rest)+ } };
    ($vis:vis $LIST:ident, $($CONST:ident: $Q:ty = $rounds:ident($key:literal, $means:literal)$(.$with:ident($($what:expr)?))*;)+) => {
        $($vis const $CONST: $crate::operations::Name<$Q> =
            $crate::operations::Name::$rounds($key, $means)$(.$with($($what)?))*;)+

        /// Every value of these names.
        $vis const $LIST: &[$crate::operations::Declared] = &[$($CONST.declare()),+];
    };
}
