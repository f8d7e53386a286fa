declare module '*.module.css' {
  const names: Readonly<Record<string, string>>
  // oxlint-disable-next-line import/no-default-export -- so it is that the bundler gives them
  export default names
}
declare module '*.css'
