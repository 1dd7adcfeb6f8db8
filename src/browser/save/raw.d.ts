/** The bundler gives the text of a file that is asked for so. */
declare module '*?raw' {
  const text: string;
  export default text;
}
