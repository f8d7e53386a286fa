declare module '*.module.css' {
  const names: Readonly<Record<string, string>>
  // oxlint-disable-next-line import/no-default-export
  export default names
}
declare module '*.css'
