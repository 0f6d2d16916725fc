// Components are written with runes.
export default { compilerOptions: { runes: true } };
