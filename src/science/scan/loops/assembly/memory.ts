// Arrays lie in the memory of the module; a function is given where each begins.
export function f32At(array: usize, i: i32): f32 { return load<f32>(array + ((<usize>i) << 2)); }
export function setF32(array: usize, i: i32, value: f32): void { store<f32>(array + ((<usize>i) << 2), value); }
export function i32At(array: usize, i: i32): i32 { return load<i32>(array + ((<usize>i) << 2)); }
export function setI32(array: usize, i: i32, value: i32): void { store<i32>(array + ((<usize>i) << 2), value); }
export function f64At(array: usize, i: i32): f64 { return load<f64>(array + ((<usize>i) << 3)); }
export function setF64(array: usize, i: i32, value: f64): void { store<f64>(array + ((<usize>i) << 3), value); }
