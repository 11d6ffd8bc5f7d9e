import tseslint from 'typescript-eslint';

// Arrows run one way: feature folders use core and platform; platform uses core; core uses core.
const layers = (files, forbidden) => ({
  files,
  rules: {
    'no-restricted-imports': ['error', { patterns: forbidden }],
  },
});

const frameworks = {
  group: [
    '@nestjs/*',
    '@prisma/*',
    'pg',
    'fastify',
    '@fastify/*',
    'node:*',
    'passport*',
    'class-*',
  ],
  message: 'core is pure: no framework, no I/O.',
};
const testOnly = { regex: '/test/|/demo/', message: 'The service does not use tests or the demo.' };

export default tseslint.config(
  {
    ignores: [
      'dist',
      '.data',
      'src/platform/prisma-client',
      'src/web/api/schema.d.ts',
      'coverage',
      'node_modules',
    ],
  },
  {
    files: ['**/*.ts', '**/*.tsx'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // Request and answer classes are shapes; a literal of that shape is one.
      '@typescript-eslint/no-unsafe-class-instance-assignment': 'off',
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      'no-restricted-syntax': [
        'error',
        { selector: 'ExportDefaultDeclaration', message: 'Export by name.' },
        {
          selector: "MemberExpression[object.name=/^(it|test|describe)$/][property.name='only']",
          message: 'A focused test hides the others.',
        },
      ],
    },
  },
  layers(
    ['src/core/*.ts'],
    [frameworks, { regex: '^\\.\\./', message: 'core uses nothing but core.' }],
  ),
  layers(
    ['src/core/*/**/*.ts'],
    [frameworks, { regex: '^\\.\\./\\.\\./.*/', message: 'core uses nothing but core.' }],
  ),
  layers(
    ['src/platform/**/*.ts'],
    [
      testOnly,
      {
        regex: '^\\.\\./(?!core/)[a-z-]+/',
        message: 'platform uses core, never a feature.',
      },
    ],
  ),
  layers(
    ['src/!(core|platform|web)/**/*.ts'],
    [
      testOnly,
      {
        regex: '^\\.\\./(?!core/|platform/)[a-z-]+/.*\\.(controller|requests|responses)$',
        message: 'Of another feature use its service, never its controller, requests or responses.',
      },
    ],
  ),
  layers(
    ['src/web/**/*.ts', 'src/web/**/*.tsx'],
    [
      {
        regex: '^\\.{1,2}/(.*/)?(core|platform)/|\\.(service|controller|requests|responses)$',
        message: 'The page reaches the service only through the REST API.',
      },
    ],
  ),
  {
    files: ['test/**/*.ts'],
    rules: {
      '@typescript-eslint/no-unsafe-assignment': 'off',
      '@typescript-eslint/no-unsafe-member-access': 'off',
      '@typescript-eslint/no-unsafe-argument': 'off',
      '@typescript-eslint/no-unsafe-return': 'off',
      '@typescript-eslint/no-unsafe-call': 'off',
      '@typescript-eslint/no-non-null-assertion': 'off',
    },
  },
);
